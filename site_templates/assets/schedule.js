// When each set, phase and rest of a drill begins, in whole milliseconds.
// The twin of builder/sums/schedule.py; a test holds both to the same answers.
(function (root) {
  "use strict";

  const NATURAL_CYCLE_MS = 4000;

  /** @param {number} seconds @param {number} index @returns {Step} */
  function nameStep(seconds, index) {
    if (index % 2 === 0) {
      return index === 0 ? "in" : "out";
    }
    return seconds > 1 ? "hold" : "pause";
  }

  /** @param {number[]} tempo */
  function listPhases(tempo) {
    /** @type {Plan["phases"]} */
    const phases = tempo.map((seconds, index) => [nameStep(seconds, index), Math.round(seconds * 1000)]);
    return phases.filter((phase) => phase[1] > 0);
  }

  /** @type {Tempoleaf["makePlan"]} */
  function makePlan(drill) {
    if (drill.minutes) {
      const whole = drill.minutes * 60000;
      return {
        phases: [],
        cycleMs: NATURAL_CYCLE_MS,
        roundMs: whole,
        restMs: 0,
        rounds: 1,
        breaths: 0,
        sides: "together",
        endMs: whole,
      };
    }
    const phases = listPhases(drill.tempo);
    const cycleMs = phases.reduce((sum, phase) => sum + phase[1], 0) || NATURAL_CYCLE_MS;
    const roundMs = drill.breaths * cycleMs;
    const restMs = drill.rest * 1000;
    const rounds = drill.sets * (drill.sides === "each" ? 2 : 1);
    const endMs = rounds * roundMs + (rounds - 1) * restMs;
    const { breaths, sides } = drill;
    return { phases, cycleMs, roundMs, restMs, rounds, breaths, sides, endMs };
  }

  /** @type {Tempoleaf["sideOf"]} */
  function sideOf(plan, round, breath) {
    if (plan.sides === "each") {
      return round <= Math.floor(plan.rounds / 2) ? 1 : 2;
    }
    if (plan.sides === "alternate" && breath) {
      return breath % 2 ? 1 : 2;
    }
    return 0;
  }

  /** @param {Plan} plan @param {number} index @returns {TimedEvent[]} */
  function listRound(plan, index) {
    const round = index + 1;
    let at = index * (plan.roundMs + plan.restMs);
    /** @type {TimedEvent[]} */
    const events = [
      { at, kind: "set", lasts: plan.roundMs, round, side: sideOf(plan, round, 0), breath: 0, step: "" },
    ];
    if (plan.phases.length) {
      for (let breath = 1; breath <= plan.breaths; breath += 1) {
        const side = sideOf(plan, round, breath);
        for (const [step, lasts] of plan.phases) {
          events.push({ at, kind: "phase", lasts, round, side, breath, step });
          at += lasts;
        }
      }
    } else {
      at += plan.roundMs;
    }
    if (plan.restMs && round < plan.rounds) {
      const side = sideOf(plan, round + 1, 0);
      events.push({ at, kind: "rest", lasts: plan.restMs, round: round + 1, side, breath: 0, step: "" });
    }
    return events;
  }

  /** @type {Tempoleaf["schedule"]} */
  function schedule(plan, start, stop) {
    const turn = plan.roundMs + plan.restMs;
    /** @type {TimedEvent[]} */
    const events = [];
    for (
      let index = Math.max(0, Math.floor(start / turn));
      index < plan.rounds && index * turn < stop;
      index += 1
    ) {
      events.push(...listRound(plan, index));
    }
    events.push({
      at: plan.endMs,
      kind: "end",
      lasts: 0,
      round: plan.rounds,
      side: 0,
      breath: 0,
      step: "",
    });
    return events.filter((event) => event.at >= start && event.at < stop);
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {ScheduleScript} */ ({ makePlan, schedule, sideOf }),
  );
})(globalThis);
