// A comfortable hold, timed: three tries at most, a minute between them, over at the first urge or
// after a minute. Pure; times are milliseconds since 1970.
(function (root) {
  "use strict";

  const TRIES = 3;
  const REST_MS = 60000;
  const MOST_MS = 60000; // nobody needs longer for an easy hold
  const LEAST_MS = 1000; // less is a finger that slipped

  /** @type {Tempoleaf["makeHold"]} */
  function makeHold(kept) {
    const { say } = root.tempoleaf.words;
    const seconds = [...kept.seconds];
    let restEnds = kept.restEnds;
    /** @type {number | null} */
    let from = null;

    /** @param {number} now @param {number} gone */
    function end(now, gone) {
      from = null;
      if (gone >= LEAST_MS) {
        seconds.push(Math.floor(Math.min(gone, MOST_MS) / 1000));
        restEnds = now + REST_MS;
      }
    }

    return {
      at(now) {
        if (from !== null && now - from >= MOST_MS) {
          end(now, MOST_MS);
        }
        if (from !== null) {
          return { kind: "running", seconds: Math.floor((now - from) / 1000) };
        }
        if (seconds.length >= TRIES) {
          return { kind: "over", seconds: 0 };
        }
        const left = Math.ceil((restEnds - now) / 1000);
        return left > 0 ? { kind: "resting", seconds: left } : { kind: "ready", seconds: 0 };
      },
      press(now) {
        const { kind } = this.at(now);
        if (from !== null) {
          end(now, now - from);
        } else if (kind === "ready") {
          from = now;
        }
      },
      drop() {
        const wasRunning = from !== null;
        from = null;
        return wasRunning;
      },
      left: () => TRIES - seconds.length,
      best: () => (seconds.length ? Math.max(...seconds) : null),
      words: () => seconds.map((each) => say("{seconds} s", { seconds: each })).join(", "),
      kept: () => ({ seconds: [...seconds], restEnds }),
    };
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {HoldScript} */ ({ makeHold }),
  );
})(globalThis);
