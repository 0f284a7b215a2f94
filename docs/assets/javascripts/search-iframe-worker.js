// A page opened from disk may not start a worker from a file: run the search in a hidden frame.
if (location.protocol === "file:") {
  const OwnWorker = window.Worker;
  window.Worker = class extends EventTarget {
    constructor(url) {
      super();
      if (String(url).startsWith("blob:")) return new OwnWorker(url);
      const frame = document.body.appendChild(document.createElement("iframe"));
      frame.hidden = true;
      const inside = frame.contentWindow;
      const load = (address) =>
        new Promise((resolve, reject) => {
          const script = inside.document.createElement("script");
          script.src = address;
          script.onload = resolve;
          script.onerror = reject;
          inside.document.body.append(script);
        });
      inside.importScripts = (...urls) =>
        urls.reduce((before, address) => before.then(() => load(address)), Promise.resolve());
      inside.postMessage = (data) => this.dispatchEvent(new MessageEvent("message", { data }));
      this.ready = load(url);
      this.frame = frame;
    }

    postMessage(data) {
      const message = new MessageEvent("message", { data });
      this.ready.then(() => this.frame.contentWindow.dispatchEvent(message));
    }

    terminate() {
      this.frame.remove();
    }
  };
}
