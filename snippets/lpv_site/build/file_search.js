"use strict";
// Search in a handbook opened from a file: browsers start no worker there, so its script runs in a hidden frame.
globalThis.Worker = class extends EventTarget {
  #inside;
  #waiting = [];

  constructor(address) {
    super();
    const frame = document.createElement("iframe");
    frame.hidden = true;
    frame.title = "Search";
    document.documentElement.append(frame);
    const inside = frame.contentWindow;
    // What the script posts goes to the page, not to the frame's own window.
    inside.postMessage = (data) => this.dispatchEvent(new MessageEvent("message", { data }));
    const script = inside.document.createElement("script");
    script.src = new URL(address, document.baseURI).href;
    script.addEventListener("load", () => {
      this.#inside = inside;
      for (const data of this.#waiting.splice(0)) this.postMessage(data);
    });
    inside.document.head.append(script);
  }

  postMessage(data) {
    if (this.#inside) this.#inside.dispatchEvent(new MessageEvent("message", { data }));
    else this.#waiting.push(data);
  }
};
