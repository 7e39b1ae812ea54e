// What a person practised, ticked and noted, as data: made sound, put together, looked at. Pure.
(function (root) {
  "use strict";

  const MOST_ROWS = 5000;
  const TICK = /^\d{1,2}$/; // the place of a sign in "ready when"
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

  /** @param {unknown} list @returns {list is string[]} */
  function areTicks(list) {
    return Array.isArray(list) && list.every((tick) => typeof tick === "string" && TICK.test(tick));
  }

  /** @type {Tempoleaf["clean"]} */
  function clean(found) {
    const data = isRecord(found) ? found : {};
    const rows = Array.isArray(data.log) ? data.log : [];
    return {
      version: 1,
      ticks: keep(data.ticks, areTicks),
      log: rows
        .filter(isRow)
        .map((row) => ({ lesson: row.lesson, on: row.on, outcome: row.outcome }))
        .slice(-MOST_ROWS),
      notes: keep(data.notes, (note) => typeof note === "string"),
      options: keep(data.options, (option) => typeof option === "boolean"),
    };
  }

  /** @type {Tempoleaf["joinNotes"]} */
  function joinNotes(own, other) {
    if (!own.trim()) {
      return other;
    }
    const lines = own.split("\n");
    for (const line of other.split("\n")) {
      const at = lines.findIndex((kept) => kept.trim() && line.includes(kept));
      if (lines.some((kept) => kept.includes(line))) {
        continue;
      } else if (at >= 0) {
        lines[at] = line; // the same line, written on
      } else {
        lines.push(line);
      }
    }
    return lines.join("\n");
  }

  /** @param {string[]} own @param {string[]} other */
  function joinTicks(own, other) {
    return [...new Set([...own, ...other])];
  }

  /** @template T @param {Record<string, T>} kept @param {string} name @param {T} value @param {(own: T, other: T) => T} join */
  function put(kept, name, value, join) {
    const own = kept[name];
    kept[name] = own === undefined ? value : join(own, value);
  }

  /** @template T @param {Record<string, T>} kept @param {(id: string) => string} name @param {(own: T, other: T) => T} join */
  function renameAll(kept, name, join) {
    for (const [old, value] of Object.entries(kept)) {
      if (name(old) !== old) {
        delete kept[old];
        put(kept, name(old), value, join);
      }
    }
  }

  /** @type {Tempoleaf["rename"]} */
  function rename(data, now) {
    const name = (/** @type {string} */ id) => (Object.hasOwn(now, id) && now[id]) || id;
    renameAll(data.ticks, name, joinTicks);
    renameAll(data.notes, name, joinNotes);
    data.log.forEach((row) => {
      row.lesson = name(row.lesson);
    });
    return data;
  }

  /** @type {Tempoleaf["isReady"]} */
  function isReady(data, lesson, boxes) {
    // A sign that a lesson no longer has counts for nothing.
    const ticks = new Set((data.ticks[lesson] || []).map(Number).filter((tick) => tick < boxes));
    if (boxes > 0 && ticks.size >= boxes) {
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
      put(joined.ticks, lesson, ticks, joinTicks);
    }
    for (const [lesson, note] of Object.entries(other.notes)) {
      put(joined.notes, lesson, note, joinNotes);
    }
    joined.log = mergeRows(joined.log, other.log);
    return joined;
  }

  // The same row twice in one file is two practices; the same row in both files is one. No row of
  // one's own makes way for another's. Which of two came later on a day nobody knows any more, so
  // the more careful one does.
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
    const room = Math.max(0, MOST_ROWS - mine.length);
    const rows = room ? [...mine, ...added.slice(-room)] : mine;
    const place = (/** @type {Practice["log"][number]} */ row) => row.on + OUTCOMES.indexOf(row.outcome);
    return added.length ? rows.sort((a, b) => (place(a) < place(b) ? -1 : place(a) > place(b) ? 1 : 0)) : rows;
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

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {PracticeDataScript} */ ({
      clean,
      countDays,
      dayOf,
      isReady,
      joinNotes,
      listNext,
      merge,
      rename,
    }),
  );
})(globalThis);
