// Where a class stands: a block waits to begin, is on or paused, or all rest after it. Pure; what a
// time means follows from the wall clock alone, so sleep and a reload change nothing.
(function (root) {
  "use strict";

  const t = root.tempoleaf;
  /** @type {WeakMap<Drill, Plan>} */
  const plans = new WeakMap();

  /** @type {Tempoleaf["planOf"]} */
  function planOf(block) {
    const plan = plans.get(block.drill) || t.makePlan(block.drill);
    plans.set(block.drill, plan);
    return plan;
  }

  /** @param {ScreenBlock[]} blocks @param {number} index */
  function blockAt(blocks, index) {
    const block = blocks[index];
    if (!block) {
      throw new RangeError(`the class has no block ${index}`);
    }
    return block;
  }

  /** @param {Run} run @param {number} now */
  function position(run, now) {
    return run.held === null ? now - run.from : run.held;
  }

  /** @type {Tempoleaf["settleRun"]} */
  function settleRun(run, blocks, now) {
    if (run.kind !== "block" || run.held !== null) {
      return run;
    }
    const { endMs } = planOf(blockAt(blocks, run.block));
    const ended = run.from + endMs;
    return now < ended ? run : { kind: "rest", block: run.block, from: ended, held: null };
  }

  /** @type {Tempoleaf["standRun"]} */
  function standRun(run, blocks, now) {
    const block = blockAt(blocks, run.block);
    if (run.kind === "block") {
      const plan = planOf(block);
      const at = Math.min(position(run, now), plan.endMs);
      const place = t.locate(plan, at);
      const left = place.kind === "lead" ? place.left : plan.endMs - at;
      return { kind: run.held === null ? "block" : "paused", block: run.block, left, place };
    }
    const left = run.kind === "rest" ? Math.max(0, run.from + block.rest * 1000 - now) : 0;
    const kind = run.kind === "wait" ? "wait" : left > 0 ? "rest" : "rested";
    return { kind, block: run.block, left, place: null };
  }

  /** @type {Tempoleaf["beginBlock"]} */
  function beginBlock(block, now) {
    return { kind: "block", block, from: now + t.LEAD_MS, held: null };
  }

  /** @type {Tempoleaf["pauseRun"]} */
  function pauseRun(run, now) {
    return run.kind === "block" ? { ...run, held: position(run, now) } : run;
  }

  /** @type {Tempoleaf["resumeRun"]} */
  function resumeRun(run, blocks, now) {
    if (run.kind === "wait" || run.held === null) {
      return run;
    }
    const plan = planOf(blockAt(blocks, run.block));
    const place = t.locate(plan, run.held);
    const gone = place.breath ? Math.round(place.cycleShare * plan.cycleMs) : 0;
    return { kind: "block", block: run.block, from: now - run.held + gone, held: null };
  }

  /** @type {Tempoleaf["endBlock"]} */
  function endBlock(run, now) {
    if (run.kind !== "block") {
      return run;
    }
    return { kind: "rest", block: run.block, from: now, held: position(run, now) };
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {ClassRunScript} */ ({
      beginBlock,
      endBlock,
      pauseRun,
      planOf,
      resumeRun,
      settleRun,
      standRun,
    }),
  );
})(globalThis);
