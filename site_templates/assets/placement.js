// From answers to a first lesson in each strand; the twin of builder/planning/placement.py.
(function (root) {
  "use strict";

  /** @param {Wanted} wanted @param {string | number | undefined} answer */
  function meets(wanted, answer) {
    if (typeof answer === "string") {
      return Array.isArray(wanted) && wanted.includes(answer);
    }
    if (answer === undefined || Array.isArray(wanted)) {
      return false;
    }
    if (wanted.least === null && wanted.under === null) {
      return false;
    }
    const isLong = wanted.least === null || answer >= wanted.least;
    return isLong && (wanted.under === null || answer < wanted.under);
  }

  /** @type {Tempoleaf["place"]} */
  function place(starts, answers, asksFirst) {
    if (asksFirst) {
      return [];
    }
    return starts.map(function (start) {
      const way = start.ways.find((each) =>
        each.when.every(([name, wanted]) => meets(wanted, answers[name])),
      );
      return { strand: start.strand, lesson: way ? way.lesson : "", why: way ? way.why : "" };
    });
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {PlacementScript} */ ({ place }),
  );
})(globalThis);
