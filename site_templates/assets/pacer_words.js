// What the pacer says at a place of a practice, for the eye and for the ear. Pure.
(function (root) {
  "use strict";

  /** @type {Tempoleaf["makeWords"]} */
  function makeWords(say, sides) {
    const { fill } = root.tempoleaf.words;

    // One more set begins with a rest.
    /** @type {PacerWords["isRest"]} */
    function isRest(session, now) {
      return now.kind === "rest" || (now.kind === "lead" && session.isAgain);
    }

    /** @param {1 | 2} side */
    function sideWord(side) {
      return side === 1 ? say.side1 : say.side2;
    }

    /** @param {ToldSession} session @param {Place} now */
    function restWord(session, now) {
      const half = session.plan.rounds / 2;
      // One more set begins with a rest that follows the second side.
      const isAfterAll = session.isAgain && now.kind === "lead";
      const before = isAfterAll || now.round - 1 > half ? 2 : 1;
      if (!now.side || before === now.side) {
        return say.rest;
      }
      return now.side === 1 ? say.next_side1 : say.next_side2;
    }

    /** @type {PacerWords["wordFor"]} */
    function wordFor(session, now) {
      if (session.isPaused) {
        return say.paused;
      }
      if (now.kind === "set") {
        return now.step ? say[now.step] : say.own;
      }
      return isRest(session, now) ? restWord(session, now) : say[now.kind];
    }

    /** @type {PacerWords["numberFor"]} */
    function numberFor(session, now) {
      if (session.isPaused || (now.kind === "set" && session.isOpen)) {
        return "";
      }
      if (now.step) {
        return String(Math.floor((now.lasts - now.left) / 1000) + 1);
      }
      const seconds = Math.ceil(now.left / 1000);
      const inMinutes = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
      return seconds >= 60 ? inMinutes : String(seconds);
    }

    /** @type {PacerWords["whereWords"]} */
    function whereWords(session, now) {
      const rounds = session.plan.rounds;
      const words = rounds > 1 ? [fill(say.set, { number: now.round, count: rounds })] : [];
      if (now.breath) {
        words.push(fill(say.breath, { number: now.breath, count: session.plan.breaths }));
      }
      if (now.side) {
        words.push(sideWord(now.side));
      }
      return words.join(" · ");
    }

    // The side is told when it changes: with a set, or with a breath where sides take turns.
    /** @type {PacerWords["spokenWords"]} */
    function spokenWords(session, now) {
      const word = wordFor(session, now);
      if (!now.step) {
        const where = whereWords(session, now);
        return now.kind === "end" ? word : fill(say.with_where, { word, where });
      }
      const isNewSide = now.step === "in" && (sides === "alternate" || now.breath === 1);
      return now.side && isNewSide ? fill(say.with_side, { word, side: sideWord(now.side) }) : word;
    }

    return { isRest, numberFor, spokenWords, whereWords, wordFor };
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {PacerWordsScript} */ ({ makeWords }),
  );
})(globalThis);
