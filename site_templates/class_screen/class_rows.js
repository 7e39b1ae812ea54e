// The rows that a class gives to its records, and the file that they go to. Pure.
(function (root) {
  "use strict";

  const HEADINGS = [
    ...["kind", "entry", "date", "person", "lesson", "outcome", "breaths done", "rest seconds"],
    ...["measure", "side", "value", "unit", "note"],
  ];
  const QUOTE = '"';
  const NUMBER = /^[+-]?\d+(\.\d+)?$/;

  /** @param {ClassState} state @param {ScreenClass} screen @param {string} key */
  function isOf(state, screen, key) {
    const [block = "", person = "", lesson = ""] = key.split("/");
    if (!root.tempoleaf.isOnPage(screen, key)) {
      return !state.leavesEarlier;
    }
    // Who came as well has the lesson that is chosen; what was noted for another doesn't count.
    // Whoever leaves goes with what they did: only a tap takes that back.
    const isOther = screen.others.some((other) => other.person === person);
    return !isOther || state.chosen[`${block}/${person}`] === lesson;
  }

  /** @param {string} left @param {string} right */
  function compareKeys(left, right) {
    const [ours, theirs] = [left.split("/"), right.split("/")];
    const byBlock = Number.parseInt(ours[0] || "", 10) - Number.parseInt(theirs[0] || "", 10);
    return byBlock || (left < right ? -1 : left > right ? 1 : 0);
  }

  /** @type {Tempoleaf["listRows"]} */
  function listRows(state, screen) {
    const { day } = screen;
    /** @type {ClassRow[]} */
    const rows = [];
    const kept = [...Object.keys(state.turns), ...Object.keys(state.readings)];
    for (const key of kept.filter((name) => isOf(state, screen, name)).sort(compareKeys)) {
      const [block = "", person = "", lesson = "", measure = "", side = ""] = key.split("/");
      const turn = state.turns[key];
      const reading = state.readings[key];
      if (turn?.outcome) {
        const { entry, outcome, breaths, rest } = turn;
        const cells = ["attendance", entry, day, person, lesson, outcome, breaths, rest];
        rows.push({ kind: "attendance", entry, block, person, cells: [...cells, "", "", "", "", ""] });
      }
      if (reading?.value) {
        const { entry, value, unit } = reading;
        const cells = ["result", entry, day, person, lesson, "", "", "", measure, side];
        rows.push({ kind: "result", entry, block, person, cells: [...cells, value, unit, ""] });
      }
    }
    return rows;
  }

  /** @param {string} cell */
  function quote(cell) {
    const isPlain = [",", QUOTE, "\r", "\n"].every((sign) => !cell.includes(sign));
    return isPlain ? cell : QUOTE + cell.replaceAll(QUOTE, QUOTE + QUOTE) + QUOTE;
  }

  /** @type {Tempoleaf["writeRows"]} */
  function writeRows(rows) {
    const lines = [HEADINGS, ...rows.map((row) => row.cells)];
    return lines.map((cells) => `${cells.map(quote).join(",")}\r\n`).join("");
  }

  /** @type {Tempoleaf["compareRows"]} */
  function compareRows(state, rows) {
    const now = new Map(rows.map((row) => [row.entry, row.cells.join()]));
    const isNew = (/** @type {string} */ entry) => state.saved[entry] === undefined;
    return {
      fresh: [...now.keys()].filter(isNew).length,
      changed: Object.entries(state.saved).filter(([entry, text]) => now.get(entry) !== text).length,
    };
  }

  /** @type {Tempoleaf["readNumber"]} */
  function readNumber(text, least, most) {
    const plain = text.trim().replace("\u2212", "-").replace(",", ".");
    const isNumber = NUMBER.test(plain) && Number(plain) >= least && Number(plain) <= most;
    return isNumber ? plain.replace("+", "") : null;
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {ClassRowsScript} */ ({ compareRows, listRows, readNumber, writeRows }),
  );
})(globalThis);
