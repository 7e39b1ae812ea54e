// What is heard and felt of the pacer, and how the screen is kept awake. Each may be missing or
// refused, and nothing waits for it.
(function () {
  "use strict";

  const AHEAD_MS = 1500; // how far tones are queued ahead
  const AHEAD_HIDDEN_MS = 70000; // a hidden page is woken once a minute at worst
  const LATE_MS = 120; // how late a breath that begins by a button may be heard
  const START_MS = 800; // how long sound may take to start
  const MOST_FREEZES = 2; // after so many the page's clock is the better one
  /** @type {{[name in Step | Place["kind"]]?: number[]}} */
  const BUZZ_MS = { in: [120], out: [40, 60, 40], hold: [40], rest: [200], end: [200, 100, 200] };

  /** @type {Tempoleaf["makeSound"]} */
  function makeSound(clock, onStopped) {
    const t = window.tempoleaf;
    /** @type {AudioContext | null} */
    let audio = null;
    /** @type {Tones | null} */
    let tones = null;
    let queuedTo = 0; // position up to which tones are queued
    let isOn = true;
    let freezes = 0;

    function open() {
      const Context = window.AudioContext || window.webkitAudioContext;
      if (!Context || audio) {
        return;
      }
      try {
        audio = new Context();
      } catch (error) {
        return; // no sound here; the page's clock does
      }
      tones = t.makeTones(audio);
      tones.sound(isOn);
      const opened = audio;
      audio.addEventListener("statechange", () => {
        if (isOn && audio === opened && audio.state !== "running") {
          onStopped();
        }
      });
    }

    return {
      async start() {
        open();
        if (!audio || !isOn) {
          clock.follow(null);
          return;
        }
        const opened = audio;
        const late = new Promise((done) => {
          window.setTimeout(done, START_MS);
        });
        await Promise.race([opened.resume().catch(() => undefined), late]);
        const keepsTime = audio === opened && opened.state === "running" && freezes < MOST_FREEZES;
        clock.follow(keepsTime ? opened : null);
      },
      queue(session) {
        if (!tones || !audio || session.isPaused || session.isOpen) {
          return;
        }
        const at = session.position(clock.now());
        const until = Math.ceil(at + (document.hidden ? AHEAD_HIDDEN_MS : AHEAD_MS));
        const from = Math.ceil(Math.max(queuedTo, at - LATE_MS));
        for (const event of t.schedule(session.plan, from, until)) {
          const name = t.toneOf(event);
          if (name) {
            const time = clock.audioTime(session.clockOf(event.at));
            tones.play(name, Math.max(time, audio.currentTime));
          }
        }
        queuedTo = Math.max(queuedTo, until);
      },
      drop(from) {
        if (tones && audio) {
          tones.cancelFrom(audio.currentTime);
        }
        queuedTo = from;
      },
      playNow(name) {
        if (tones && audio) {
          tones.play(name, audio.currentTime + 0.05);
        }
      },
      turn(on) {
        isOn = on;
        if (tones) {
          tones.sound(on);
        }
      },
      noteFreeze() {
        freezes += 1;
      },
      keepsTime() {
        return Boolean(audio && isOn && audio.state === "running");
      },
      close() {
        freezes = 0;
        if (audio) {
          clock.follow(null);
          const closing = audio;
          audio = null;
          tones = null;
          closing.close();
        }
      },
    };
  }

  /** @type {Tempoleaf["buzz"]} */
  function buzz(name) {
    const pattern = BUZZ_MS[name];
    if (navigator.vibrate && pattern) {
      navigator.vibrate(pattern);
    }
  }

  /** @type {Tempoleaf["makeWake"]} */
  function makeWake(onRefused) {
    let isWanted = false;
    /** @type {WakeLockSentinel | null} */
    let lock = null;

    return {
      async hold() {
        isWanted = true;
        if (!navigator.wakeLock || lock || document.hidden) {
          return;
        }
        try {
          const held = await navigator.wakeLock.request("screen");
          if (!isWanted || lock) {
            held.release();
            return;
          }
          lock = held;
          lock.addEventListener("release", () => {
            lock = null;
          });
        } catch (error) {
          onRefused();
        }
      },
      free() {
        isWanted = false;
        if (lock) {
          lock.release();
          lock = null;
        }
      },
    };
  }

  window.tempoleaf = Object.assign(
    window.tempoleaf || {},
    /** @satisfies {PacerSoundScript} */ ({ buzz, makeSound, makeWake }),
  );
})();
