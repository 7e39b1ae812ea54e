// What is kept on this device, under one versioned key a site; nothing of it leaves the device
// unless the person hands it over.
(function (root) {
  "use strict";

  const { clean, dayOf, merge } = root.tempoleaf;
  const DAY_MS = 86400000;

  /** @type {Tempoleaf["makePractice"]} */
  function makePractice(storage, home) {
    const key = "tempoleaf.practice.1:" + home;
    const oldTicks = "tempoleaf.ticks.1:" + home;
    /** @type {string | null} */
    let memory = null; // what the device would not keep; it lasts until the page is left

    /** @param {string} name */
    function get(name) {
      try {
        return storage ? storage.getItem(name) : null;
      } catch (error) {
        return null; // a private window
      }
    }

    /** @param {string | null} text @returns {unknown} */
    function parse(text) {
      try {
        return JSON.parse(text || "null");
      } catch (error) {
        return null; // text that is no longer ours
      }
    }

    function read() {
      const found = memory === null ? get(key) : memory;
      return clean(found ? parse(found) : { ticks: parse(get(oldTicks)) });
    }

    /** @type {PracticeStore["change"]} */
    function change(alter) {
      const data = read();
      alter(data);
      const text = JSON.stringify(clean(data));
      try {
        if (storage) {
          storage.setItem(key, text);
          storage.removeItem(oldTicks);
          memory = null;
          return true;
        }
      } catch (error) {
        // full, or a private window
      }
      memory = text;
      return false;
    }

    return {
      key,
      read,
      change,
      record(lesson, outcome, when) {
        const on = dayOf(when);
        return change((data) => data.log.push({ lesson, on, outcome }));
      },
      add(found) {
        const other = clean(found);
        // Nobody has practised later than tomorrow, wherever on earth that begins.
        const latest = dayOf(new Date(Date.now() + DAY_MS));
        other.log = other.log.filter((row) => row.on <= latest);
        return change((data) => Object.assign(data, merge(data, other)));
      },
      follow(show) {
        show();
        root.addEventListener("storage", (event) => {
          if (event.key === key || event.key === null) {
            show();
          }
        });
        // By now the browser has put back what stood in fields when the page was left.
        root.addEventListener("pageshow", () => show());
      },
      erase() {
        memory = null;
        try {
          if (storage) {
            storage.removeItem(key);
            storage.removeItem(oldTicks);
          }
        } catch (error) {
          // nothing could be kept, so nothing is left
        }
      },
    };
  }

  /** The site's own, on a page. */
  function openPractice() {
    const script = /** @type {HTMLScriptElement | null} */ (root.document.currentScript);
    const { whole = "" } = root.tempoleaf.wordsHere || {};
    const home = script ? new URL("../../" + whole, script.src).pathname : "/";
    let storage = null;
    try {
      // Where it is switched off, the theme may have put something there that forgets.
      storage = root.localStorage instanceof root.Storage ? root.localStorage : null;
    } catch (error) {
      // storage is switched off
    }
    return makePractice(storage, home);
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {PracticeScript} */ ({ makePractice }),
  );
  if (root.document) {
    root.tempoleaf.practice = openPractice();
  }
})(globalThis);
