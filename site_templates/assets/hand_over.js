// My practice as addresses that another phone reads off the screen. Each address is whole in
// itself: in any order, and read twice, they add up to the same. Pure.
(function (root) {
  "use strict";

  const MOST_CHARACTERS = 500; // a code of some 77 cells a side, easy to read off a phone
  const MOST_ALONE = 850; // one long note, as a code that takes a steadier hand
  const FIRST_DAY = Date.parse("0000-01-01T00:00:00Z");
  const DAY_MS = 86400000;
  const MOST_DAYS = 3652424; // the last day of the year 9999
  /** @type {Record<Outcome, string>} */
  const LETTERS = { ready: "R", again: "A", easier: "E" };
  /** @type {Record<string, Outcome>} */
  const OUTCOMES = { R: "ready", A: "again", E: "easier" };

  /** @param {Partial<Practice>} known @returns {Practice} */
  function makePart(known) {
    return { version: 1, ticks: {}, log: [], notes: {}, options: {}, ...known };
  }

  /** Days since the last row, in 36 digits, and the outcome. @param {Practice["log"]} rows of one lesson */
  function writeRows(rows) {
    let last = 0;
    return rows
      .map((row) => {
        const day = (Date.parse(row.on + "T00:00:00Z") - FIRST_DAY) / DAY_MS;
        const gone = day - last;
        last = day;
        return gone.toString(36) + LETTERS[row.outcome];
      })
      .join("");
  }

  /** @param {string} lesson @param {string} text @returns {Practice["log"]} */
  function readRows(lesson, text) {
    let day = 0;
    return Array.from(text.matchAll(/([0-9a-z]{1,6})([RAE])/g), ([, gone = "", letter = ""]) => {
      day = Math.min(MOST_DAYS, day + Number.parseInt(gone, 36));
      const on = new Date(FIRST_DAY + day * DAY_MS).toISOString().slice(0, 10);
      return { lesson, on, outcome: OUTCOMES[letter] || "again" };
    });
  }

  /** @param {Practice} part @param {string} place such as 2.3 for the second of three */
  function writePart(part, place) {
    const fields = new URLSearchParams({ take: place });
    for (const lesson of new Set(part.log.map((row) => row.lesson))) {
      fields.set(`log.${lesson}`, writeRows(part.log.filter((row) => row.lesson === lesson)));
    }
    for (const [lesson, ticks] of Object.entries(part.ticks)) {
      fields.set(`ticks.${lesson}`, ticks.join("."));
    }
    for (const [lesson, note] of Object.entries(part.notes)) {
      fields.set(`note.${lesson}`, note);
    }
    return fields.toString();
  }

  // The same practice twice in one part is two practices, in two parts it is one: so what a lesson
  // had on one day stays together.
  /** @param {Practice} data @param {boolean} withNotes @returns {Practice[]} */
  function listPieces(data, withNotes) {
    /** @type {Map<string, Practice["log"]>} */
    const days = new Map();
    for (const row of data.log) {
      const name = `${row.lesson} ${row.on}`;
      days.set(name, [...(days.get(name) || []), row]);
    }
    return [
      ...[...days.keys()].sort().map((name) => makePart({ log: days.get(name) || [] })),
      ...Object.entries(data.ticks)
        .filter(([, ticks]) => ticks.length > 0)
        .map(([lesson, ticks]) => makePart({ ticks: { [lesson]: ticks } })),
      ...Object.entries(withNotes ? data.notes : {}).map(([lesson, note]) =>
        makePart({ notes: { [lesson]: note } }),
      ),
    ];
  }

  /** The lesson of a piece. @param {Practice} piece */
  function nameOf(piece) {
    return Object.keys({ ...piece.notes, ...piece.ticks })[0] || piece.log[0]?.lesson || "";
  }

  /** @param {Practice} one @param {Practice} other */
  function join(one, other) {
    return makePart({
      ticks: { ...one.ticks, ...other.ticks },
      log: [...one.log, ...other.log],
      notes: { ...one.notes, ...other.notes },
    });
  }

  /** @type {Tempoleaf["listHandOvers"]} */
  function listHandOvers(data, page, withNotes) {
    const write = (/** @type {Practice} */ part, place = "10.10") => `${page}#${writePart(part, place)}`;
    /** @type {Practice[]} */
    const parts = [];
    /** @type {string[]} */
    const left = [];
    for (const piece of listPieces(data, withNotes)) {
      const last = parts.at(-1);
      const joined = last && join(last, piece);
      if (joined && write(joined).length <= MOST_CHARACTERS) {
        parts[parts.length - 1] = joined;
      } else if (write(piece).length <= MOST_ALONE) {
        parts.push(piece);
      } else {
        left.push(nameOf(piece));
      }
    }
    const addresses = parts.map((part, at) => write(part, `${at + 1}.${parts.length}`));
    return { addresses, left };
  }

  /** @type {Tempoleaf["readHandOver"]} */
  function readHandOver(fragment) {
    const fields = new URLSearchParams(fragment.replace(/^#/, ""));
    const place = /^(\d{1,3})\.(\d{1,3})$/.exec(fields.get("take") || "");
    if (!place || fragment.length > MOST_ALONE) {
      return null;
    }
    const part = makePart({});
    for (const [name, value] of fields) {
      const [kind, lesson = ""] = name.split(".");
      if (kind === "log") {
        part.log.push(...readRows(lesson, value));
      } else if (kind === "ticks") {
        part.ticks[lesson] = value.split(".");
      } else if (kind === "note") {
        part.notes[lesson] = value;
      }
    }
    return { data: root.tempoleaf.clean(part), part: Number(place[1]), parts: Number(place[2]) };
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {HandOverScript} */ ({ listHandOvers, readHandOver }),
  );
})(globalThis);
