// Opened from a disk, a page may start no worker, and search runs in one. So the worker's script
// runs in an empty frame instead, and both hear each other as they would a worker.
(function () {
  "use strict";

  if (window.location.protocol !== "file:") {
    return;
  }

  class FrameWorker extends EventTarget {
    /** @param {string | URL} address */
    constructor(address) {
      super();
      /** @type {unknown[]} */
      this.waiting = [];
      /** @type {((event: MessageEvent) => void) | null} */
      this.onmessage = null;
      this.isReady = false;
      const frame = document.createElement("iframe");
      frame.hidden = true;
      document.body.append(frame);
      const inside = /** @type {Window & typeof globalThis} */ (frame.contentWindow);
      this.inside = inside;
      // What the script says goes to the page; what the page says is an event inside.
      inside.postMessage = (/** @type {unknown} */ data) => {
        const event = new MessageEvent("message", { data });
        this.onmessage?.(event);
        this.dispatchEvent(event);
      };
      const script = inside.document.createElement("script");
      script.src = String(address);
      script.addEventListener("load", () => {
        this.isReady = true;
        this.waiting.splice(0).forEach((data) => this.tell(data));
      });
      inside.document.head.append(script);
    }

    /** @param {unknown} data */
    tell(data) {
      this.inside.dispatchEvent(new this.inside.MessageEvent("message", { data }));
    }

    /** @param {unknown} data */
    postMessage(data) {
      if (this.isReady) {
        this.tell(data);
      } else {
        this.waiting.push(data);
      }
    }

    terminate() {
      this.inside.frameElement?.remove();
    }
  }

  Object.assign(window, { Worker: FrameWorker });
})();
