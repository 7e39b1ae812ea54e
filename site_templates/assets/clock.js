// One clock for a practice: the audio clock where sound runs, the page's own where it doesn't.
// Milliseconds that only go forward, whichever of both is asked.
(function (root) {
  "use strict";

  const FROZEN_MS = 1500;

  /** @type {Tempoleaf["makeClock"]} */
  function makeClock() {
    /** @type {AudioContext | null} */
    let audio = null;
    let read = () => root.performance.now();
    let from = read();
    let gone = 0;
    let lag = 0; // how far the audio clock was behind the page's when it was taken up

    function now() {
      return gone + read() - from;
    }

    return {
      now,
      follow(context) {
        gone = now();
        audio = context;
        read = context ? () => context.currentTime * 1000 : () => root.performance.now();
        from = read();
        lag = context ? root.performance.now() - read() : 0;
      },
      audioTime(time) {
        return (time - gone + from) / 1000;
      },
      isFrozen() {
        return audio !== null && root.performance.now() - read() - lag > FROZEN_MS;
      },
    };
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {ClockScript} */ ({ makeClock }),
  );
})(globalThis);
