// What is kept on this device: ticks, what was practised, notes and options. One versioned key a
// site; nothing of it leaves the device unless the person exports it.
(function (root) {
  "use strict";

  /**
   * @typedef {Object} Practice
   * @property {1} version
   * @property {Record<string, string[]>} ticks by lesson
   * @property {{lesson: string, on: string, outcome: string}[]} log oldest first
   * @property {Record<string, string>} notes by lesson
   * @property {Record<string, boolean>} options
   */

  const MOST_ROWS = 5000;
  const OUTCOMES = ["ready", "again", "easier"];

  /** @param {any} value @returns {value is Record<string, any>} */
  function isRecord(value) {
    return typeof value === "object" && value !== null && !Array.isArray(value);
  }

  /** @param {any} value @param {(item: any) => boolean} fits */
  function keep(value, fits) {
    return isRecord(value)
      ? Object.fromEntries(Object.entries(value).filter((pair) => fits(pair[1])))
      : {};
  }

  /** Makes sound data of whatever was kept or handed in. @param {any} found @returns {Practice} */
  function clean(found) {
    const data = isRecord(found) ? found : {};
    const rows = Array.isArray(data.log) ? data.log : [];
    return {
      version: 1,
      ticks: keep(
        data.ticks,
        (list) => Array.isArray(list) && list.every((tick) => typeof tick === "string"),
      ),
      log: rows
        .filter(
          (row) =>
            isRecord(row) &&
            typeof row.lesson === "string" &&
            /^\d{4}-\d{2}-\d{2}$/.test(row.on) &&
            OUTCOMES.includes(row.outcome),
        )
        .map((row) => ({ lesson: row.lesson, on: row.on, outcome: row.outcome }))
        .slice(-MOST_ROWS),
      notes: keep(data.notes, (note) => typeof note === "string"),
      options: keep(data.options, (option) => typeof option === "boolean"),
    };
  }

  /**
   * @param {Storage | null} storage null where the device keeps nothing
   * @param {string} home path of the site, so that two sites on one host don't mix
   */
  function makePractice(storage, home) {
    const key = "tempoleaf.practice.1:" + home;
    const oldTicks = "tempoleaf.ticks.1:" + home;
    let memory = "";

    /** @param {string} name */
    function get(name) {
      try {
        return storage ? storage.getItem(name) : null;
      } catch (error) {
        return null; // a private window
      }
    }

    /** @param {string | null} text */
    function parse(text) {
      try {
        return JSON.parse(text || "null");
      } catch (error) {
        return null; // text that is no longer ours
      }
    }

    /** @returns {Practice} */
    function read() {
      const found = get(key) || memory;
      return clean(found ? parse(found) : { ticks: parse(get(oldTicks)) });
    }

    /** Changes what is kept; tells whether the device will keep it. @param {(data: Practice) => void} alter */
    function change(alter) {
      const data = read();
      alter(data);
      memory = JSON.stringify(clean(data));
      try {
        if (storage) {
          storage.setItem(key, memory);
          storage.removeItem(oldTicks);
          return true;
        }
      } catch (error) {
        // full, or a private window: kept until the page is left
      }
      return false;
    }

    return {
      key,
      read,
      change,
      /** @param {string} lesson @param {string} outcome @param {Date} when */
      record(lesson, outcome, when) {
        const pad = (/** @type {number} */ part) => String(part).padStart(2, "0");
        const on = `${when.getFullYear()}-${pad(when.getMonth() + 1)}-${pad(when.getDate())}`;
        return change((data) => data.log.push({ lesson, on, outcome }));
      },
    };
  }

  /** The site's own, on a page. */
  function openPractice() {
    const script = /** @type {HTMLScriptElement | null} */ (root.document.currentScript);
    const home = script ? new URL("../../", script.src).pathname : "/";
    let storage = null;
    try {
      storage = root.localStorage;
    } catch (error) {
      // storage is switched off
    }
    return makePractice(storage, home);
  }

  root.tempoleaf = Object.assign(root.tempoleaf || {}, { clean, makePractice });
  if (root.document) {
    root.tempoleaf.practice = openPractice();
  }
})(/** @type {any} */ (globalThis));
