"""Rebuild the vendored part of the browser engine, `docs/assets/engine/`.

For a maintainer who moves to a newer version, with Node.js and npm and a network; building and
testing the site needs neither.  The same versions give the same bytes on every machine:

    python3 scripts/vendor.py            rebuild the files and the manifest
    python3 scripts/vendor.py --check    rebuild elsewhere and compare with the committed files
"""

import argparse
import base64
import hashlib
import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

SCRIPTS = Path(__file__).resolve().parent
ENGINE = SCRIPTS.parent / "docs" / "assets" / "engine"

# npm packages: exact version, and npm's own checksum of that version.
PACKAGES = {
    "pyodide": (
        "314.0.7",
        "sha512-0YvXxEhfEdpLfb/XkM2BFAeMROq0iMUX2bzzH9pOttyMcWkwq+HbE5uyuGD82LN7y2q+SNvi/6V5JEsOlD2R1A==",
    ),
    "ml-matrix": (
        "6.15.1",
        "sha512-DUVxsB+hsXhha9FTp6kQiy6UopxW9F7IXsbWhYVTHRfKdb0UimLYUDYqLQ1WwGPERnp8T5Usbwb47xxkAzSfOg==",
    ),
    "fft.js": (
        "4.0.4",
        "sha512-f9c00hphOgeQTlDyavwTtu6RiK8AIFjD6+jvXkNkpeQ7rirK3uFWVpalkoS4LAwbdX7mfZ8aoBfFVQX1Re/8aw==",
    ),
    "is-any-array": (
        "3.0.0",
        "sha512-o4h+tylWykC4BD1vaejp6gDxoM13bwW8FGuNs4yIKpj8xbBJcRxJx8vZpq0dCr7ZDEfeKjmsi/euolKhX6f/ww==",
    ),
    "ml-array-max": (
        "2.0.0",
        "sha512-QQZ4kENwpWmyNb98UXRDFXrmtIXuXtt1+bSbda/2KA85+F+rrJP8hZk6QOkCQXM2Th9mUDYdq/PNByPdT9ID4A==",
    ),
    "ml-array-min": (
        "2.0.0",
        "sha512-GRj6Ky6sW9vGL6yIjgsHmXZ9YgrdmcQ8nCxPqEGeKc6dkfYg1XDYxGFxADUjNuZyoCd5PUscWAS4N+cFaX6hFg==",
    ),
    "ml-array-rescale": (
        "2.0.0",
        "sha512-2GGtKfSno94/kIloWGvpp/U5Q5vLvLrza+SAaGsLeo6Xj4mEbA6Gqx+oTfZFkxnd1grT2X007HfJNs3T5BsiVg==",
    ),
    "esbuild": (
        "0.28.2",
        "sha512-HKVLS8dvII+xoKW9kmqxbRKrnWEXfJJr/FZhhJmiqIB0e053QNYFqOBouTMO/k5sID4MvCiUCvv8b9M4h32wIA==",
    ),
}

# What `calc` may import of the standard library; whatever these modules import comes along.
MODULES = (
    *("abc", "annotationlib", "ast", "bisect", "cmath", "collections", "contextlib", "copy", "csv"),
    *("dataclasses", "decimal", "enum", "fractions", "functools", "hashlib", "heapq", "html"),
    *("importlib", "inspect", "io", "itertools", "json", "linecache", "math", "numbers"),
    *("operator", "random", "re", "statistics", "string", "textwrap", "tokenize", "tomllib"),
    *("traceback", "types", "typing", "unicodedata", "urllib.parse"),
)

# Addresses in the runtime are replaced by this one, which the worker answers from memory.
PLACEHOLDER = "https://offline.invalid/"


def main() -> None:
    """Rebuild the engine's files, or check that they can be rebuilt."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--check", action="store_true", help="compare, do not write")
    only_check = parser.parse_args().check
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / "engine" if only_check else ENGINE
        if only_check:
            shutil.copytree(ENGINE, target)
        vendor(Path(folder), target)
        if only_check and (target / "manifest.json").read_bytes() != manifest_path().read_bytes():
            sys.exit("The rebuilt files differ from the committed ones.")
    for path in vendored_files(ENGINE):
        print(f"{path.stat().st_size:9,} {path.relative_to(ENGINE).as_posix()}")


def vendor(build: Path, target: Path) -> None:
    """Fetch the packages into `build` and write the engine's vendored files into `target`."""
    install(build)
    pyodide = build / "node_modules" / "pyodide"
    shutil.copy(pyodide / "pyodide.asm.wasm", build)
    (build / "script.js").write_text(loader_script(pyodide), encoding="utf-8", newline="\n")
    (build / "modules.json").write_text(json.dumps(MODULES))
    run("node", SCRIPTS / "precompile.mjs", SCRIPTS / "precompile.py", build, folder=build)
    lock = json.loads((pyodide / "pyodide-lock.json").read_text())["info"]
    write(target / "runtime.js", runtime_script(build, lock))
    write(target / "linalg.js", linalg_script(build))
    licence = (build / "node_modules" / "ml-matrix" / "LICENSE").read_text(encoding="utf-8")
    write(target / "licences" / "ml-matrix.txt", licence)
    readme = (build / "node_modules" / "fft.js" / "README.md").read_text(encoding="utf-8")
    write(target / "licences" / "fft.js.txt", readme[readme.index("This software is licensed") :])
    write(target / "manifest.json", manifest(target, lock))


def install(build: Path) -> None:
    """Install `PACKAGES` with npm and compare what came with the checksums above."""
    wanted = {name: version for name, (version, _) in PACKAGES.items()}
    (build / "package.json").write_text(json.dumps({"private": True, "dependencies": wanted}))
    run("npm", "install", "--ignore-scripts", "--no-audit", "--no-fund", folder=build)
    installed = json.loads((build / "package-lock.json").read_text())["packages"]
    for name, (version, checksum) in PACKAGES.items():
        found = installed[f"node_modules/{name}"]
        if (found["version"], found["integrity"]) != (version, checksum):
            sys.exit(f"{name}: expected {version} {checksum}, got {found}")


def loader_script(pyodide: Path) -> str:
    """Return Pyodide's two modules as one classic script in which nothing points at a server."""
    loader = (pyodide / "pyodide.mjs").read_text(encoding="utf-8")
    loader = loader[: loader.index("//# sourceMappingURL")]
    body, exports = loader.rstrip().rsplit("export{", 1)
    exported = dict(pair.split(" as ")[::-1] for pair in exports.removesuffix("};").split(","))
    address = body[body.index("`https://") : body.index("/full/`") + len("/full/`")]
    body = body.replace(address, f'"{PLACEHOLDER}"')
    module = (pyodide / "pyodide.asm.mjs").read_text(encoding="utf-8")
    module, export = module.rstrip().rsplit("export default ", 1)
    script = (
        f"{body}globalThis.loadPyodide={exported['loadPyodide']};\n"
        f"{module}globalThis.createPyodideModule={export}\n"
    )
    return script.replace("import.meta.url", f'"{PLACEHOLDER}"')


def runtime_script(build: Path, lock: dict[str, str]) -> str:
    """Return the script that carries loader, interpreter and standard library."""
    version = PACKAGES["pyodide"][0]
    runtime = {"lock": {"info": lock, "packages": {}}, "placeholder": PLACEHOLDER}
    for key, file in (
        ("script", "script.js.gz"),
        ("interpreter", "pyodide.asm.wasm.gz"),
        ("library", "stdlib.zip.gz"),
    ):
        runtime[key] = base64.b64encode((build / file).read_bytes()).decode()
    return (
        f"/* Pyodide {version}: Python {lock['python']} in WebAssembly, gzip and base64."
        "  Licences: see the folder licences. */\n"
        f"(window.engineFiles ??= {{}}).runtime = {json.dumps(runtime)};\n"
    )


def linalg_script(build: Path) -> str:
    """Return the script that carries linear algebra as a function, to be run in the worker."""
    for name in ("linalg.js", "fourier.js", "reading.js"):
        shutil.copy(SCRIPTS / name, build)
    esbuild = build / "node_modules" / "esbuild" / "bin" / "esbuild"
    output = ["--bundle", "--minify", "--format=esm", "--charset=ascii", "--target=es2022"]
    run("node", esbuild, "linalg.js", *output, "--outfile=linalg.min.js", folder=build)
    code = (build / "linalg.min.js").read_text(encoding="utf-8").rstrip()
    matrix, fourier = PACKAGES["ml-matrix"][0], PACKAGES["fft.js"][0]
    return (
        f"/* ml-matrix {matrix} and fft.js {fourier}, MIT licence: see the folder licences. */\n"
        f"(window.engineFiles ??= {{}}).linalg = function () {{\n{code}\n}};\n"
    )


def manifest(target: Path, lock: dict[str, str]) -> str:
    """Return the text of the manifest: what is vendored, and the SHA-256 of every file."""
    pyodide = PACKAGES["pyodide"][0]
    emscripten = lock["platform"].removeprefix("emscripten_").replace("_", ".")
    components = {
        "pyodide/pyodide": (pyodide, "MPL-2.0", "licences/pyodide.txt"),
        "python/cpython": (lock["python"], "PSF-2.0", "licences/cpython.txt"),
        "emscripten-core/emscripten": (emscripten, "MIT", "licences/emscripten.txt"),
        "mljs/matrix": (PACKAGES["ml-matrix"][0], "MIT", "licences/ml-matrix.txt"),
        "indutny/fft.js": (PACKAGES["fft.js"][0], "MIT", "licences/fft.js.txt"),
    }
    content = {
        "components": [
            {
                "name": name,
                "version": version,
                "licence": licence,
                "licence_file": file,
                "source": f"https://github.com/{name}",
            }
            for name, (version, licence, file) in components.items()
        ],
        "packages": {
            name: {"version": version, "integrity": checksum}
            for name, (version, checksum) in PACKAGES.items()
        },
        "files": {
            path.relative_to(target).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
            for path in vendored_files(target)
        },
    }
    return json.dumps(content, indent=2) + "\n"


def vendored_files(folder: Path) -> list[Path]:
    """Return the files of `folder` that come from elsewhere, sorted: all but the hand-written."""
    own = {folder / "engine.js", folder / "manifest.json"}
    files = (path for path in folder.rglob("*") if path.is_file() and path not in own)
    return sorted(files, key=lambda path: path.as_posix())


def manifest_path() -> Path:
    """Return the path of the committed manifest."""
    return ENGINE / "manifest.json"


def write(path: Path, text: str) -> None:
    """Write `text` with the same line ends on every machine."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")


def run(program: str, *arguments: str | Path, folder: Path) -> None:
    """Run an installed program in `folder` and stop where it fails."""
    path = shutil.which(program)
    if path is None:
        sys.exit(f"{program} is needed to rebuild the browser engine: install Node.js.")
    subprocess.run([path, *map(str, arguments)], cwd=folder, check=True)


if __name__ == "__main__":
    main()
