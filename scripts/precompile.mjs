/* Run a Python script inside Pyodide, with a folder of this machine mounted as /build.
 * Usage: node precompile.mjs SCRIPT FOLDER, where FOLDER is the one in which npm put Pyodide.
 * The hash seed is fixed so that the script's compiled code has the same bytes on every run.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";

const [script, folder] = process.argv.slice(2).map((path) => resolve(path));
const require = createRequire(`${folder}/package.json`);
const { loadPyodide } = await import(pathToFileURL(require.resolve("pyodide/pyodide.mjs")));
const pyodide = await loadPyodide({ env: { PYTHONHASHSEED: "0" } });
pyodide.mountNodeFS("/build", folder);
pyodide.runPython(readFileSync(script, "utf8"), { filename: "precompile.py" });
