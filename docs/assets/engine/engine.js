/* The browser engine: runs the `calc` package in a worker, from a web server and from disk alike.
 *
 *   engine.start()        a promise that is kept when the engine is ready; it starts only once
 *   engine.ask(request)   a promise of the answer of calc.browser.respond to {call, arguments};
 *                         a `piece` of text beside them travels as it is, not in JSON, and becomes
 *                         the argument `text`
 *   engine.stop(key)      drops the requests with a key; they are rejected with a StopError
 *   engine.state          "idle", "starting", "ready" or "failed"
 *   engine.limit          seconds that an answer may take
 *
 * Requests are answered one at a time, in order.  Where `request.key` is given, a newer request
 * with the same key takes the place of an older one that still waits; the older one is rejected
 * with an AbortError.  A request that takes too long is rejected with a TimeoutError and the engine
 * starts again.  Every change is told by an event "engine:progress" on `document`, with
 * {state, text} as its detail.
 */
(() => {
  "use strict";

  const FOLDER = new URL(".", document.currentScript.src).href;
  const START_LIMIT = 60; // seconds, for a slow disk and a slow processor

  let worker = null; // ready to answer
  let starting = null; // the promise of the start under way or done
  let current = null; // the job the worker has
  const waiting = []; // jobs: {key, text, piece, resolve, reject}

  const engine = { state: "idle", limit: 30, start, ask, stop };
  window.engine = engine;

  function start() {
    starting ??= launch().then(
      (ready) => {
        worker = ready;
        report("ready", "Calculator ready");
        next();
      },
      (error) => {
        starting = null;
        report("failed", error.message);
        for (const job of waiting.splice(0)) job.reject(error);
        throw error;
      },
    );
    return starting;
  }

  function ask({ key, call, arguments: values = {}, piece }) {
    return new Promise((resolve, reject) => {
      const text = JSON.stringify({ call, arguments: values });
      for (const job of waiting.filter((older) => key !== undefined && older.key === key)) {
        waiting.splice(waiting.indexOf(job), 1);
        job.reject(problem("Replaced by a newer request", "AbortError"));
      }
      waiting.push({ key, text, piece, resolve, reject });
      start().catch(() => {}); // a failed start rejects the waiting jobs
      next();
    });
  }

  /** Drop the jobs with a key; the worker that has one of them is replaced. */
  function stop(key) {
    const stopped = problem("The calculation was stopped", "StopError");
    for (const job of waiting.filter((one) => one.key === key)) {
      waiting.splice(waiting.indexOf(job), 1);
      job.reject(stopped);
    }
    if (current?.key !== key) return;
    clearTimeout(current.timer);
    restart(stopped);
  }

  /** Give the worker the next job if it has none. */
  function next() {
    if (!worker || current || waiting.length === 0) return;
    const job = (current = waiting.shift());
    const text = `The calculation took longer than ${engine.limit} s and was stopped`;
    const limit = 1000 * engine.limit;
    job.timer = setTimeout(() => restart(problem(text, "TimeoutError")), limit);
    worker.onmessage = ({ data }) => {
      clearTimeout(job.timer);
      if (data.failure) return restart(problem(`The calculator stopped: ${data.failure}`));
      current = null;
      job.resolve(JSON.parse(data.answer));
      next();
    };
    worker.onerror = (event) => {
      clearTimeout(job.timer);
      restart(problem(`The calculator stopped: ${event.message}`));
    };
    worker.postMessage({ ask: job.text, piece: job.piece });
  }

  /** Drop the worker with its job, and start another for the jobs that wait. */
  function restart(error) {
    worker.terminate();
    const job = current;
    worker = starting = current = null;
    start().catch(() => {});
    job?.reject(error);
  }

  /** Return a worker that is ready to answer. */
  async function launch() {
    report("starting", "Loading the calculator");
    if (!window.WebAssembly || !window.DecompressionStream) {
      throw problem("The calculator did not start: this browser has no WebAssembly, or is too old");
    }
    const { runtime, calc, linalg } = await files();
    report("starting", "Starting the calculator");
    const loader = await unpacked(runtime.script);
    const parts = [
      `(${closeNetwork})();\n`,
      `${inflated}\n`,
      `${loader}\n`,
      `(${linalg})();\n`,
      `(${serve})();\n`,
    ];
    const address = URL.createObjectURL(new Blob(parts, { type: "text/javascript" }));
    const launched = new Worker(address);
    let timer;
    try {
      await new Promise((resolve, reject) => {
        const fail = (text) => reject(problem(`The calculator did not start: ${text}`));
        const silence = `no sign of life within ${START_LIMIT} s`;
        timer = setTimeout(() => fail(silence), 1000 * START_LIMIT);
        const broken = (reason) => reject(damaged("its files", reason));
        launched.onmessage = ({ data }) => (data.failure ? broken(data.failure) : resolve());
        launched.onerror = (event) => {
          event.preventDefault(); // told in words, not in the console
          broken(event.message);
        };
        launched.postMessage({ start: { runtime: { ...runtime, script: null }, calc } });
      });
    } catch (error) {
      launched.terminate();
      throw error;
    } finally {
      clearTimeout(timer);
      URL.revokeObjectURL(address);
    }
    return launched;
  }

  /** Return what the files of the engine hold; a file that is cut short or replaced is named. */
  async function files() {
    const found = (window.engineFiles ??= {});
    const names = ["runtime", "calc", "linalg"].filter((name) => !found[name]);
    await Promise.all(names.map((name) => load(`${FOLDER}${name}.js`)));
    const whole = {
      runtime: ["script", "interpreter", "library"].every((part) => found.runtime?.[part]),
      calc: typeof found.calc?.["calc/browser.py"] === "string",
      linalg: typeof found.linalg === "function",
    };
    for (const name of Object.keys(whole)) if (!whole[name]) throw damaged(`${FOLDER}${name}.js`);
    return found;
  }

  async function unpacked(base64) {
    try {
      return await new Response(inflated(base64)).text();
    } catch (error) {
      throw damaged(`${FOLDER}runtime.js`, error);
    }
  }

  /** Return the error for a damaged file, which is forgotten so that a later start loads it anew. */
  function damaged(what, cause) {
    window.engineFiles = {};
    const text = `The calculator did not start: ${what} cannot be read, perhaps damaged on the way`;
    return Object.assign(problem(text), { cause });
  }

  /** Load a classic script: the one way to read a file that works from disk too. */
  function load(address) {
    return new Promise((resolve, reject) => {
      const script = document.createElement("script");
      script.src = address;
      script.onload = resolve;
      script.onerror = () => {
        script.remove();
        reject(problem(`The calculator did not start: cannot load ${address}`));
      };
      document.head.append(script);
    });
  }

  function problem(text, name = "Error") {
    return Object.assign(new Error(text), { name });
  }

  function report(state, text) {
    engine.state = state;
    document.dispatchEvent(new CustomEvent("engine:progress", { detail: { state, text } }));
  }

  /** Return a stream of the bytes in a gzip file given in base64.  Used here and in the worker. */
  function inflated(base64) {
    const text = atob(base64);
    const bytes = new Uint8Array(text.length);
    for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
    return new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  }

  /** Runs first in the worker: takes away whatever can reach a network. */
  function closeNetwork() {
    const doors = ["caches", "EventSource", "fetch", "FontFace", "importScripts", "WebSocket",
      "WebSocketStream", "WebTransport", "Worker", "XMLHttpRequest"];
    for (let owner = self; owner; owner = Object.getPrototypeOf(owner)) {
      for (const door of doors) delete owner[door];
    }
  }

  /** Runs last in the worker: starts Python and answers. */
  function serve() {
    let respond;

    self.onmessage = async ({ data }) => {
      try {
        if (data.start) {
          respond = await started(data.start);
          self.postMessage({ ready: true });
        } else {
          self.postMessage({ answer: respond(data.ask, data.piece ?? "") });
        }
      } catch (error) {
        self.postMessage({ failure: String(error) });
      }
    };

    async function started({ runtime, calc }) {
      const home = runtime.placeholder;
      const files = {
        [`${home}pyodide.asm.wasm`]: [runtime.interpreter, "application/wasm"],
        [`${home}python_stdlib.zip`]: [runtime.library, "application/zip"],
      };
      self.fetch = async (address) => {
        if (!(address in files)) throw new Error(`There is no network here: ${address}`);
        const [content, type] = files[address];
        return new Response(inflated(content), { headers: { "Content-Type": type } });
      };
      const python = await self.loadPyodide({
        indexURL: home,
        packageBaseUrl: home,
        lockFileContents: runtime.lock,
        createPyodideModule: self.createPyodideModule,
        env: { PYTHONDONTWRITEBYTECODE: "1" }, // nothing written there would be read again
      });
      const encoder = new TextEncoder(); // `writeFile` itself is five times slower with a text
      const folders = Object.keys(calc).map((path) => path.slice(0, path.lastIndexOf("/")));
      for (const folder of new Set(folders)) python.FS.mkdirTree(`/${folder}`);
      for (const [path, text] of Object.entries(calc)) {
        python.FS.writeFile(`/${path}`, encoder.encode(text));
      }
      python.runPython("import sys; sys.path.insert(0, '/')");
      return python.pyimport("calc.browser").respond;
    }
  }
})();
