// A course without a signal: asks the browser to keep the pages, tells when newer ones have come,
// and keeps sounds and cards if the person wants them. Never on a preview, where pages change.
(function () {
  "use strict";

  const t = window.tempoleaf;
  const { number, say } = t.words;
  /** @typedef {{keep: (size: string) => string, kept: string}} GroupWords */
  /** @type {Record<string, GroupWords>} */
  const GROUPS = {
    sounds: {
      keep: (size) => say("Keep the practice sounds, {size}", { size }),
      kept: say("The practice sounds are kept on this device."),
    },
    cards: {
      keep: (size) => say("Keep the cards to print, {size}", { size }),
      kept: say("The cards to print are kept on this device."),
    },
  };
  const script = document.currentScript;

  /** @param {number} bytes */
  function wordSize(bytes) {
    const megabytes = bytes / 1e6;
    return say("{number} MB", { number: number(megabytes, megabytes < 10 ? 1 : 0) });
  }

  /** @template T @param {ServiceWorker} worker @param {string} words @param {(answer: T) => void} hear */
  function ask(worker, words, hear) {
    const channel = new MessageChannel();
    channel.port1.onmessage = (event) => hear(event.data);
    worker.postMessage(words, [channel.port2]);
  }

  function tellNewer() {
    if (document.querySelector(".tl-newer")) {
      return;
    }
    const bar = document.createElement("div");
    const button = document.createElement("button");
    bar.className = "tl-newer";
    bar.setAttribute("role", "status");
    button.type = "button";
    button.textContent = say("Show it");
    button.addEventListener("click", () => window.location.reload());
    bar.append(say("A newer version of this course is here."), " ", button);
    document.body.append(bar);
  }

  /** @param {ServiceWorker} worker @param {HTMLElement} list */
  function showGroups(worker, list) {
    ask(worker, "groups", (/** @type {KeptGroup[]} */ groups) => {
      list.replaceChildren(
        ...groups.flatMap((group) => {
          const words = GROUPS[group.name];
          if (!words) {
            return []; // a newer worker than this page
          }
          const item = document.createElement("p");
          const button = document.createElement("button");
          const told = document.createElement("span");
          button.type = "button";
          button.className = "tl-big";
          button.textContent = words.keep(wordSize(group.bytes));
          button.hidden = group.isWhole;
          told.setAttribute("role", "status");
          told.textContent = group.isWhole ? words.kept : "";
          button.addEventListener("click", () => keep(worker, group.name, words.kept, button, told));
          item.className = "tl-mine__act";
          item.append(button, " ", told);
          return [item];
        }),
      );
    });
  }

  /** @param {ServiceWorker} worker @param {string} group @param {string} kept @param {HTMLButtonElement} button @param {HTMLElement} told */
  function keep(worker, group, kept, button, told) {
    button.disabled = true;
    ask(worker, group, (/** @type {KeptSoFar} */ answer) => {
      button.disabled = !answer.hasFailed;
      button.hidden = Boolean(answer.isWhole);
      if (answer.hasFailed) {
        told.textContent = say("That didn't work: there is no signal, or no room. Try again later.");
      } else if (answer.isWhole) {
        told.textContent = kept;
      } else {
        told.textContent = say("{done} of {count}", { done: answer.done || 0, count: answer.count || 0 });
      }
    });
  }

  async function start() {
    if (!navigator.serviceWorker || !(script instanceof HTMLScriptElement)) {
      return;
    }
    const root = new URL("../../", script.src);
    if (!t.isOnWeb(root)) {
      return;
    }
    let hadOne = Boolean(navigator.serviceWorker.controller);
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      if (hadOne) {
        tellNewer();
      }
      hadOne = true;
    });
    try {
      await navigator.serviceWorker.register(new URL("service-worker.js", root), { scope: root.pathname });
    } catch (error) {
      return; // a private window, or a host that serves no such file
    }
    const box = document.querySelector("[data-tl-offline]");
    const ready = await navigator.serviceWorker.ready;
    if (box instanceof HTMLElement && ready.active) {
      box.hidden = false;
      showGroups(ready.active, t.makeFinder(box)("[data-tl-groups]"));
    }
  }

  if (document.readyState === "complete") {
    start();
  } else {
    window.addEventListener("load", start); // the page itself comes first
  }
})();
