// One practice of a drill: where it stands at a time, whoever keeps the clock. Pure; times are
// milliseconds of one clock that only goes forward.
(function (root) {
  "use strict";

  const LEAD_MS = 5000;
  const MOST_EXTRA_SETS = 1;

  /** @typedef {Pick<Place, "kind" | "round"> & Partial<Place>} Known */

  /** @type {Tempoleaf["locate"]} */
  function locate(plan, at) {
    if (at < 0) {
      return place(plan, { kind: "lead", round: 1, share: 0, left: -at, lasts: -at });
    }
    if (at >= plan.endMs) {
      return place(plan, { kind: "end", round: plan.rounds, share: 1, left: 0, lasts: 0 });
    }
    const turn = plan.roundMs + plan.restMs;
    const index = Math.floor(at / turn);
    const within = at - index * turn;
    if (within >= plan.roundMs) {
      const gone = within - plan.roundMs;
      return part(plan, { kind: "rest", round: index + 2 }, gone, plan.restMs);
    }
    if (!plan.phases.length) {
      return part(plan, { kind: "set", round: index + 1 }, within, plan.roundMs);
    }
    return locateBreath(plan, index + 1, within);
  }

  /** @param {Plan} plan @param {number} round @param {number} within @returns {Place} */
  function locateBreath(plan, round, within) {
    const breath = Math.floor(within / plan.cycleMs) + 1;
    let left = within % plan.cycleMs;
    let full = 0;
    for (const [step, lasts] of plan.phases) {
      const next = step === "in" ? 1 : step === "out" ? 0 : full;
      if (left < lasts) {
        const soft = (1 - Math.cos((Math.PI * left) / lasts)) / 2;
        const fill = full + (next - full) * soft;
        const cycleShare = (within % plan.cycleMs) / plan.cycleMs;
        return part(plan, { kind: "set", round, breath, step, fill, cycleShare }, left, lasts);
      }
      full = next;
      left -= lasts;
    }
    throw new RangeError("a breath has no phase at " + within);
  }

  /** @param {Plan} plan @param {Known} known @param {number} gone @param {number} lasts */
  function part(plan, known, gone, lasts) {
    return place(plan, { ...known, share: gone / lasts, left: lasts - gone, lasts });
  }

  /**
   * @param {Plan} plan @param {Known & Pick<Place, "share" | "left" | "lasts">} known
   * @returns {Place}
   */
  function place(plan, known) {
    /** @type {Omit<Place, "side">} */
    const whole = { breath: 0, step: "", fill: 0, cycleShare: 0, ...known };
    return { ...whole, side: root.tempoleaf.sideOf(plan, whole.round, whole.breath) };
  }

  /** @param {Plan} plan @param {number} round from 1 @param {number} breath from 1 */
  function startOf(plan, round, breath) {
    return (round - 1) * (plan.roundMs + plan.restMs) + (breath - 1) * plan.cycleMs;
  }

  /** @type {Tempoleaf["makeSession"]} */
  function makeSession(drill) {
    let plan = root.tempoleaf.makePlan(drill);
    let tempo = drill.tempo;
    /** @type {number[] | null} */
    let wished = null; // a count to take up when the breath ends
    let base = 0; // clock time at which the first set begins
    /** @type {number | null} */
    let held = null; // the position, while paused
    let isStarted = false;
    let extraSets = 0;
    let openRound = 1; // at one's own pace: the set that goes on until the person ends it
    const isOpen = !plan.phases.length && !drill.minutes;

    /** @param {number} round */
    function endOf(round) {
      return startOf(plan, round, 1) + plan.roundMs;
    }

    /** @param {number} now */
    function position(now) {
      const at = held === null ? now - base : held;
      return isOpen ? Math.min(at, endOf(openRound) - 1) : at;
    }

    /** @param {number} now @param {number} at */
    function move(now, at) {
      if (held === null) {
        base = now - at;
      } else {
        held = at;
      }
    }

    /** @param {number} clock when the breath begins @param {number} round @param {number} breath */
    function change(clock, round, breath) {
      tempo = /** @type {number[]} */ (wished);
      wished = null;
      plan = root.tempoleaf.makePlan({ ...drill, tempo, sets: extraSets ? 1 : drill.sets });
      base = clock - startOf(plan, round, breath);
    }

    return {
      start(now) {
        isStarted = true;
        held = null;
        base = now + LEAD_MS;
      },
      at(now) {
        return locate(plan, position(now));
      },
      position,
      clockOf(at) {
        return base + at;
      },
      pause(now) {
        held = position(now);
      },
      resume(now) {
        const at = position(now);
        const found = locate(plan, at);
        held = null;
        base = now - (found.breath ? startOf(plan, found.round, found.breath) : at);
      },
      wish(next) {
        wished = next.join() === tempo.join() ? null : next;
      },
      take(now, just) {
        const at = position(now);
        const found = locate(plan, at);
        if (!wished || held !== null || found.kind === "end") {
          return false;
        }
        if (found.kind === "set") {
          const began = startOf(plan, found.round, found.breath);
          if (at - began > just) {
            return false;
          }
          change(base + began, found.round, found.breath);
        } else {
          change(now + found.left, found.round, 1);
        }
        return true;
      },
      skip(now) {
        const found = locate(plan, position(now));
        if (found.kind === "set") {
          move(now, found.round < plan.rounds ? endOf(found.round) : plan.endMs);
          openRound = found.round + 1;
        } else if (found.kind !== "end") {
          move(now, startOf(plan, found.round, 1));
        }
      },
      again(now) {
        extraSets += 1;
        openRound = 1;
        plan = root.tempoleaf.makePlan({ ...drill, tempo, sets: 1 });
        held = null;
        base = now + Math.max(plan.restMs, LEAD_MS);
      },
      get mayGoOn() {
        return extraSets < MOST_EXTRA_SETS && !drill.minutes;
      },
      get isPaused() {
        return held !== null;
      },
      get isStarted() {
        return isStarted;
      },
      get isOpen() {
        return isOpen;
      },
      get plan() {
        return plan;
      },
      get tempo() {
        return tempo;
      },
      get wished() {
        return wished;
      },
      get isAgain() {
        return extraSets > 0;
      },
    };
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {SessionScript} */ ({ LEAD_MS, locate, makeSession }),
  );
})(globalThis);
