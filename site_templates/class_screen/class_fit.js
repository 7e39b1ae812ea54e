// Fits what was kept to the page and the clock by which it is found: another plan, a clock that was
// set back, a reload after long. Pure.
(function (root) {
  "use strict";

  const t = root.tempoleaf;
  const NOWHERE = "0"; // no block has this number
  const REST_MS = 60000; // the rest after a hold, as hold.js has it

  /** @param {ScreenClass} screen @param {string} person */
  function findOther(screen, person) {
    return screen.others.find((other) => other.person === person);
  }

  /** @param {ScreenClass} screen @param {string} block @param {string} person @param {string} lesson */
  function isOffered(screen, block, person, lesson) {
    return Boolean(findOther(screen, person)?.blocks[Number(block) - 1]?.includes(lesson));
  }

  /** @type {Tempoleaf["isOnPage"]} */
  function isOnPage(screen, key) {
    const [block = "", person = "", lesson = ""] = key.split("/");
    const turn = `${block}/${person}/${lesson}`;
    return screen.turns.includes(turn) || isOffered(screen, block, person, lesson);
  }

  /** @param {ClassState} state */
  function listNoted(state) {
    const turns = Object.entries(state.turns).filter(([, turn]) => turn.outcome);
    const readings = Object.entries(state.readings).filter(([, reading]) => reading.value);
    return [...turns, ...readings].map(([key]) => key);
  }

  // Where an id means somebody else now, the page belongs to another class of the same name: what
  // was noted for the first one shows in no block, and goes out only if it is asked for.
  /** @param {ClassState} state @param {ScreenClass} screen */
  function partPeople(state, screen) {
    const isOther = (/** @type {string} */ person) =>
      (state.names[person] ?? screen.names[person]) !== screen.names[person];
    for (const kept of [state.turns, state.readings]) {
      for (const [key, value] of Object.entries(kept)) {
        const [block = "", person = "", ...rest] = key.split("/");
        if (isOther(person)) {
          delete kept[key];
          Object.assign(kept, { [[`${NOWHERE}-${block}`, person, ...rest].join("/")]: value });
          state.leavesEarlier = true;
        }
      }
    }
    for (const place of Object.keys(state.chosen)) {
      if (isOther(place.split("/")[1] || "")) {
        delete state.chosen[place];
      }
    }
    state.out = state.out.filter((person) => !isOther(person));
    state.added = state.added.filter((person) => !isOther(person));
    state.names = { ...screen.names };
  }

  // The clock and the stopwatches of another plan say nothing of this one; what was noted stays.
  /** @param {ClassState} state @param {ScreenClass} screen */
  function takePlan(state, screen) {
    const wasUsed = state.began !== null || listNoted(state).length > 0;
    state.plan = screen.plan;
    partPeople(state, screen);
    state.run = { kind: "wait", block: 0, from: 0, held: null };
    state.shown = 0;
    state.watches = Object.create(null);
    for (const [place, lesson] of Object.entries(state.chosen)) {
      const [block = "", person = ""] = place.split("/");
      if (!isOffered(screen, block, person, lesson)) {
        delete state.chosen[place];
      }
    }
    // Who was planned for and isn't any more keeps what they did.
    for (const key of listNoted(state)) {
      const [block = "", person = "", lesson = ""] = key.split("/");
      if (isOffered(screen, block, person, lesson)) {
        state.chosen[`${block}/${person}`] ??= lesson;
      }
    }
    return wasUsed;
  }

  /** @param {ClassState} state @param {number} now */
  function mendTimes(state, now) {
    const { run } = state;
    const latest = now + (run.kind === "block" ? t.LEAD_MS : 0);
    const isAhead = run.kind !== "wait" && run.from > latest && (run.kind === "rest" || run.held === null);
    if (isAhead) {
      // How much of it is over nobody knows: a rest begins anew, a block waits at its start.
      state.run = run.kind === "rest" ? { ...run, from: now } : { ...run, held: 0 };
    }
    if (state.began !== null) {
      state.began = Math.min(state.began, now);
    }
    for (const watch of Object.values(state.watches)) {
      watch.from = watch.from !== null && watch.from > now ? null : watch.from;
      watch.restEnds = Math.min(watch.restEnds, now + REST_MS);
    }
    return isAhead;
  }

  /** @type {Tempoleaf["fitClass"]} */
  function fitClass(state, screen, now) {
    const isOther = state.plan !== screen.plan && takePlan(state, screen);
    const last = screen.blocks.length - 1;
    state.shown = Math.min(state.shown, last);
    if (state.run.block > last) {
      state.run = { kind: "wait", block: last, from: 0, held: null };
    }
    return { isOther, isAhead: mendTimes(state, now), isLate: t.dropLateWatches(state, now) };
  }

  /** @type {Tempoleaf["shiftTimes"]} */
  function shiftTimes(state, byMs) {
    state.run.from += byMs;
    if (state.began !== null) {
      state.began += byMs;
    }
    for (const watch of Object.values(state.watches)) {
      watch.from = watch.from === null ? null : watch.from + byMs;
      watch.restEnds += byMs;
    }
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {ClassFitScript} */ ({ fitClass, isOnPage, listNoted, shiftTimes }),
  );
})(globalThis);
