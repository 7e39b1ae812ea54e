// All that a class screen keeps, as data: made sound, and changed by taps. Pure, but for marks,
// which are drawn by lot.
(function (root) {
  "use strict";

  const t = root.tempoleaf;
  const MARK_BYTES = 8;
  const LONGEST_HOLD_MS = 60000; // as hold.js has it
  /** @type {unknown[]} */
  const OUTCOMES = ["ready", "again", "easier", ""];

  /** @param {unknown} value @returns {value is Record<string, unknown>} */
  function isRecord(value) {
    return typeof value === "object" && value !== null && !Array.isArray(value);
  }

  /** @param {unknown} value @returns {value is number} */
  function isTime(value) {
    return typeof value === "number" && Number.isFinite(value);
  }

  /** @param {unknown} value @returns {value is number} */
  function isPlace(value) {
    return Number.isInteger(value) && Number(value) >= 0;
  }

  /** @param {unknown} value @returns {value is string} */
  function isText(value) {
    return typeof value === "string";
  }

  /** @param {unknown} value */
  function listTexts(value) {
    return Array.isArray(value) ? [...new Set(value.filter(isText))] : [];
  }

  /** @template T @param {unknown} value @param {(item: unknown) => T | null} read */
  function readEach(value, read) {
    // Without a prototype, so that a name such as "constructor" is a name like any other.
    /** @type {Record<string, T>} */
    const kept = Object.create(null);
    for (const [name, item] of Object.entries(isRecord(value) ? value : {})) {
      const found = read(item);
      if (found !== null) {
        kept[name] = found;
      }
    }
    return kept;
  }

  /** @param {unknown} value @returns {Run} */
  function readRun(value) {
    const run = isRecord(value) ? value : {};
    const kind = run.kind === "block" || run.kind === "rest" ? run.kind : "wait";
    const block = isPlace(run.block) ? run.block : 0;
    if (kind !== "wait" && !isTime(run.from)) {
      return { kind: "wait", block, from: 0, held: null };
    }
    return {
      kind,
      block,
      from: isTime(run.from) ? run.from : 0,
      held: isTime(run.held) ? run.held : null,
    };
  }

  /** @param {unknown} value @returns {TurnMarks | null} */
  function readTurn(value) {
    if (!isRecord(value) || !isText(value.entry) || !OUTCOMES.includes(value.outcome)) {
      return null;
    }
    return {
      outcome: /** @type {Outcome | ""} */ (value.outcome),
      breaths: isText(value.breaths) ? value.breaths : "",
      rest: isText(value.rest) ? value.rest : "",
      entry: value.entry,
    };
  }

  /** @param {unknown} value @returns {Reading | null} */
  function readReading(value) {
    if (!isRecord(value) || !isText(value.entry) || !isText(value.value)) {
      return null;
    }
    return { value: value.value, unit: isText(value.unit) ? value.unit : "", entry: value.entry };
  }

  /** @param {unknown} value @returns {Watch | null} */
  function readKeptWatch(value) {
    if (!isRecord(value)) {
      return null;
    }
    const { from, restEnds, unit } = value;
    return {
      from: isTime(from) ? from : null,
      restEnds: isTime(restEnds) ? restEnds : 0,
      unit: isText(unit) ? unit : "",
    };
  }

  /** @type {Tempoleaf["cleanClass"]} */
  function cleanClass(found) {
    const data = isRecord(found) && found.version === 1 ? found : {};
    const orNull = (/** @type {unknown} */ text) => (isText(text) ? text : null);
    return {
      version: 1,
      plan: isText(data.plan) ? data.plan : "",
      names: readEach(data.names, orNull),
      revision: isPlace(data.revision) ? Number(data.revision) : 0,
      began: isTime(data.began) ? data.began : null,
      run: readRun(data.run),
      shown: isPlace(data.shown) ? data.shown : 0,
      isSilent: data.isSilent === true,
      leavesEarlier: data.leavesEarlier === true,
      out: listTexts(data.out),
      added: listTexts(data.added),
      chosen: readEach(data.chosen, orNull),
      turns: readEach(data.turns, readTurn),
      readings: readEach(data.readings, readReading),
      watches: readEach(data.watches, readKeptWatch),
      saved: readEach(data.saved, orNull),
    };
  }

  /** @type {Tempoleaf["readClass"]} */
  function readClass(text) {
    try {
      return cleanClass(JSON.parse(text || "null"));
    } catch (error) {
      return cleanClass(null); // text that is no longer ours
    }
  }

  /** @type {Tempoleaf["makeMark"]} */
  function makeMark(day) {
    const bytes = root.crypto.getRandomValues(new Uint8Array(MARK_BYTES));
    return `${day}-${Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("")}`;
  }

  /** @type {Tempoleaf["tapOutcome"]} */
  function tapOutcome(state, key, outcome, given) {
    const kept = state.turns[key];
    state.turns[key] = {
      outcome: kept?.outcome === outcome ? "" : outcome,
      breaths: kept ? kept.breaths : given.breaths,
      rest: kept ? kept.rest : given.rest,
      entry: kept ? kept.entry : given.mark,
    };
  }

  /** @type {Tempoleaf["noteReading"]} */
  function noteReading(state, key, { value, unit, mark }) {
    const kept = state.readings[key];
    if (kept || value) {
      state.readings[key] = { value, unit, entry: kept ? kept.entry : mark };
    }
  }

  /* Stopwatches: the trials are readings, and hold.js knows the rules */

  /** @param {ClassState} state @param {string} key */
  function listKept(state, key) {
    return [1, 2, 3].map((trial) => state.readings[`${key}/${trial}`]?.value || "").filter(Boolean);
  }

  /** @type {Tempoleaf["listTrials"]} */
  function listTrials(state, key) {
    return listKept(state, key).map(Number);
  }

  /** @param {ClassState} state @param {string} key */
  function openHold(state, key) {
    const watch = state.watches[key] || { from: null, restEnds: 0, unit: "" };
    const hold = t.makeHold({ seconds: listTrials(state, key), restEnds: watch.restEnds });
    if (watch.from !== null) {
      hold.press(watch.from);
    }
    return hold;
  }

  /** @type {Tempoleaf["readWatch"]} */
  function readWatch(state, key, now) {
    return openHold(state, key).at(now);
  }

  /** @type {Tempoleaf["pressWatch"]} */
  function pressWatch(state, key, { unit, day, now }) {
    const hold = openHold(state, key);
    const before = hold.kept().seconds.length;
    hold.press(now);
    const { seconds, restEnds } = hold.kept();
    const from = hold.at(now).kind === "running" ? now : null;
    state.watches[key] = { from, restEnds, unit };
    if (seconds.length > before) {
      const value = String(seconds[seconds.length - 1]);
      noteReading(state, `${key}/${seconds.length}`, { value, unit, mark: makeMark(day) });
    }
  }

  /** @param {ClassState} state @param {number} now */
  function listPast(state, now) {
    return Object.entries(state.watches).filter(
      ([, watch]) => watch.from !== null && now - watch.from >= LONGEST_HOLD_MS,
    );
  }

  /** @type {Tempoleaf["hasLateWatch"]} */
  function hasLateWatch(state, now) {
    return listPast(state, now).length > 0;
  }

  /** @type {Tempoleaf["dropLateWatches"]} */
  function dropLateWatches(state, now) {
    const late = listPast(state, now);
    late.forEach(([, watch]) => {
      watch.from = null;
    });
    return late.length > 0;
  }

  /** @type {Tempoleaf["endWatches"]} */
  function endWatches(state, day, now) {
    const past = listPast(state, now);
    past.forEach(([key, { unit }]) => pressWatch(state, key, { unit, day, now }));
  }

  /** @type {Tempoleaf["takeBackTrial"]} */
  function takeBackTrial(state, key) {
    const last = state.readings[`${key}/${listKept(state, key).length}`];
    if (last) {
      last.value = "";
      state.watches[key] = { from: null, restEnds: 0, unit: last.unit };
    }
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {ClassStateScript} */ ({
      cleanClass,
      dropLateWatches,
      endWatches,
      hasLateWatch,
      listTrials,
      makeMark,
      noteReading,
      pressWatch,
      readClass,
      readWatch,
      takeBackTrial,
      tapOutcome,
    }),
  );
})(globalThis);
