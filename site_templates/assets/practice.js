// What is kept on this device: ticks, what was practised, notes and options. One versioned key a
// site; nothing of it leaves the device unless the person exports it.
(function (root) {
  "use strict";

  const MOST_ROWS = 5000;
  const NAME = /^[a-z0-9]+(-[a-z0-9]+)*$/; // as ids of lessons are
  /** @type {unknown[]} */
  const OUTCOMES = ["ready", "again", "easier"];

  /** @param {unknown} value @returns {value is Record<string, unknown>} */
  function isRecord(value) {
    return typeof value === "object" && value !== null && !Array.isArray(value);
  }

  /** @template T @param {unknown} value @param {(item: unknown) => item is T} fits */
  function keep(value, fits) {
    // Without a prototype, so that a name such as "constructor" is a name like any other.
    /** @type {Record<string, T>} */
    const kept = Object.create(null);
    if (isRecord(value)) {
      Object.entries(value).forEach(([name, item]) => {
        if (NAME.test(name) && fits(item)) {
          kept[name] = item;
        }
      });
    }
    return kept;
  }

  /** @param {unknown} text */
  function isDay(text) {
    if (typeof text !== "string" || !/^\d{4}-\d{2}-\d{2}$/.test(text)) {
      return false;
    }
    const time = Date.parse(text + "T00:00:00Z");
    return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
  }

  /** @param {unknown} row @returns {row is Practice["log"][number]} */
  function isRow(row) {
    return (
      isRecord(row) &&
      typeof row.lesson === "string" &&
      NAME.test(row.lesson) &&
      isDay(row.on) &&
      OUTCOMES.includes(row.outcome)
    );
  }

  /** @type {Tempoleaf["clean"]} */
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
        .filter(isRow)
        .map((row) => ({ lesson: row.lesson, on: row.on, outcome: row.outcome }))
        .slice(-MOST_ROWS),
      notes: keep(data.notes, (note) => typeof note === "string"),
      options: keep(data.options, (option) => typeof option === "boolean"),
    };
  }

  /** @type {Tempoleaf["rename"]} */
  function rename(data, now) {
    const name = (/** @type {string} */ id) => (Object.hasOwn(now, id) && now[id]) || id;
    for (const kept of [data.ticks, data.notes]) {
      for (const old of Object.keys(kept).filter((id) => name(id) !== id)) {
        const value = kept[name(old)] || kept[old];
        if (value !== undefined) {
          kept[name(old)] = value;
        }
        delete kept[old];
      }
    }
    data.log.forEach((row) => {
      row.lesson = name(row.lesson);
    });
    return data;
  }

  /** @type {Tempoleaf["isReady"]} */
  function isReady(data, lesson, boxes) {
    if (boxes > 0 && new Set(data.ticks[lesson] || []).size >= boxes) {
      return true;
    }
    const last = data.log.filter((row) => row.lesson === lesson).slice(-2);
    return last.length === 2 && last.every((row) => row.outcome === "ready");
  }

  /** @type {Tempoleaf["listNext"]} */
  function listNext(data, lessons) {
    const ready = new Set(lessons.filter((l) => isReady(data, l.id, l.boxes)).map((l) => l.id));
    return lessons
      .filter((l) => !ready.has(l.id) && l.before.length && l.before.every((id) => ready.has(id)))
      .map((l) => l.id);
  }

  /** @type {Tempoleaf["merge"]} */
  function merge(mine, other) {
    const joined = clean(mine);
    for (const [lesson, ticks] of Object.entries(other.ticks)) {
      joined.ticks[lesson] = [...new Set([...(joined.ticks[lesson] || []), ...ticks])];
    }
    for (const [lesson, note] of Object.entries(other.notes)) {
      const own = joined.notes[lesson] || "";
      const both = own && note ? own + "\n" + note : own || note;
      joined.notes[lesson] = own.includes(note) ? own : both;
    }
    joined.log = mergeRows(joined.log, other.log);
    return clean(joined);
  }

  // The same row twice in one file is two practices; the same row in both files is one.
  /** @param {Practice["log"]} mine @param {Practice["log"]} other */
  function mergeRows(mine, other) {
    const left = mine.map((row) => JSON.stringify(row));
    const added = other.filter((row) => {
      const at = left.indexOf(JSON.stringify(row));
      if (at >= 0) {
        left.splice(at, 1);
      }
      return at < 0;
    });
    const rows = [...mine, ...added];
    return rows.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
  }

  /** @type {Tempoleaf["countDays"]} */
  function countDays(data, days) {
    const practised = new Set(data.log.map((row) => row.on));
    return days.filter((day) => practised.has(day)).length;
  }

  /** @type {Tempoleaf["dayOf"]} */
  function dayOf(when) {
    const pad = (/** @type {number} */ part) => String(part).padStart(2, "0");
    return `${when.getFullYear()}-${pad(when.getMonth() + 1)}-${pad(when.getDate())}`;
  }

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
        return change((data) => Object.assign(data, merge(data, clean(found))));
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
    const home = script ? new URL("../../", script.src).pathname : "/";
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
    /** @satisfies {PracticeScript} */ ({
      clean,
      countDays,
      dayOf,
      isReady,
      listNext,
      makePractice,
      merge,
      rename,
    }),
  );
  if (root.document) {
    root.tempoleaf.practice = openPractice();
  }
})(globalThis);
