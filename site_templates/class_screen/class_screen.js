// A class screen: brings its parts together, keeps every tap at once, and lets time pass.
(function () {
  "use strict";

  const t = window.tempoleaf;
  const { say } = t.words;
  const TICK_MS = 100;
  const LATE_MS = 1500; // where ticks stay away for so long, the device slept
  const TOLD_MS = 5000; // what is too short to matter is not told
  const NARROW = "(max-width: 39.99rem)"; // as screen.css has it

  function openStorage() {
    try {
      return window.localStorage;
    } catch (error) {
      return null; // storage is switched off
    }
  }

  /** @param {number} ms */
  function timeWords(ms) {
    const seconds = Math.round(ms / 1000);
    return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  }

  function start() {
    const find = t.makeFinder(document);
    /** @type {ScreenClass} */
    const screen = JSON.parse(find("[data-tl-class]").textContent);
    const store = t.makeClassStore(openStorage(), screen.key);
    const backup = t.makeBackup(screen.key);
    let state = store.read();
    let isKept = true;
    let isAtDoor = true;
    let tickedAt = Date.now();

    function keep() {
      state.revision += 1;
      isKept = store.write(state);
      backup.write(state);
    }

    // Whether the device keeps anything is known only once it was asked to; nothing stays of it.
    function tryStore() {
      isKept = store.write(state);
      if (state.revision === 0) {
        store.erase();
      }
    }

    /** Takes up what was kept, and says what can't be taken as it is. @param {ClassState} found */
    function take(found) {
      state = found;
      const { isOther, isAhead, isLate } = t.fitClass(state, screen, Date.now());
      if (isOther || isAhead || isLate) {
        keep();
      } else {
        tryStore();
      }
      isAtDoor = isOther || state.began === null;
      const told = [
        isOther && say("This page was made anew from another plan: its clock begins at block 1. What was noted before is kept."),
        isAhead && say("The clock of this device was set back. Look where the class stands before you go on."),
        isLate && lateWords(),
      ];
      around.tell(told.filter(Boolean).join(" "));
    }

    function lateWords() {
      return say("A hold ran on while nobody looked: nothing was noted for it.");
    }

    // The same class in two windows: what the other one kept last is what is true.
    function catchUp() {
      const kept = store.read();
      if (kept.revision > state.revision) {
        state = kept;
      }
    }

    /** @param {(state: ClassState) => void} alter */
    function alter(alter) {
      catchUp();
      alter(state);
      keep();
      show();
    }

    const around = {
      screen,
      get state() {
        return state;
      },
      rows: () => t.listRows(state, screen),
      /** @param {(state: ClassState) => void} change */
      change(change) {
        around.tell("");
        alter(change);
      },
      /** @param {string} words */
      tell(words) {
        find("[data-tl-told]").textContent = words;
      },
      /** @param {string} words */
      hear(words) {
        find("[data-tl-heard]").textContent = words;
      },
      // On a phone the figures are a tap away, so that one person's buttons follow another's.
      /** @param {ParentNode} within */
      fold(within) {
        const isNarrow = window.matchMedia(NARROW).matches;
        t.findAll(within, "[data-tl-seen]").forEach((part) => part.toggleAttribute("open", !isNarrow));
      },
      erase() {
        store.erase();
        backup.erase();
        state = t.cleanClass({ version: 1, plan: screen.plan });
        isAtDoor = true;
        show();
      },
    };
    const tiles = t.makeTiles(around);
    const people = t.makePeople(around);
    const panel = t.makePanel(around);
    const file = t.makeClassFile(around);

    function show() {
      find("[data-tl-door]").hidden = !isAtDoor;
      find("[data-tl-work]").hidden = isAtDoor;
      find("[data-tl-to-door]").hidden = isAtDoor;
      find("[data-tl-other-day]").hidden = t.dayOf(new Date()) === screen.day;
      find("[data-tl-start]").textContent =
        state.began === null ? say("Start the class") : say("Back to the class");
      people.show();
      tiles.show();
      panel.show();
      file.show(isKept);
    }

    /** @param {boolean} isDoor */
    function turnTo(isDoor) {
      isAtDoor = isDoor;
      if (!isDoor && state.began === null) {
        around.change((kept) => {
          kept.began = Date.now();
        });
      }
      show();
      window.scrollTo(0, 0);
      find(isDoor ? "[data-tl-door] h2" : "[data-tl-go]").focus({ preventScroll: true });
    }

    /** What a leap of the clock means. @param {number} leapMs @param {number} now */
    function leap(leapMs, now) {
      const isOn = t.standRun(state.run, screen.blocks, now).left > 0 && state.run.held === null;
      if (leapMs < -LATE_MS) {
        alter((kept) => t.shiftTimes(kept, leapMs));
        around.tell(say("The clock of this device was set back; the class goes on as it was."));
      } else if (leapMs > LATE_MS) {
        const late = { isLate: false };
        alter((kept) => {
          late.isLate = t.dropLateWatches(kept, now);
        });
        const slept = say("{time} passed unseen: the device slept, or its clock was set. The class clock went on.", {
          time: timeWords(leapMs),
        });
        const told = [isOn && leapMs > TOLD_MS && slept, late.isLate && lateWords()];
        around.tell(told.filter(Boolean).join(" ") || find("[data-tl-told]").textContent);
      }
    }

    function tick() {
      const now = Date.now();
      const leapMs = now - tickedAt - TICK_MS;
      tickedAt = now;
      leap(leapMs, now);
      const isOver = t.settleRun(state.run, screen.blocks, now) !== state.run;
      if (isOver || t.hasLateWatch(state, now)) {
        alter((kept) => {
          t.endWatches(kept, screen.day, now);
          kept.run = t.settleRun(kept.run, screen.blocks, now);
        });
      }
      if (!isAtDoor) {
        tiles.tick(now);
        panel.tick(now);
      }
    }

    /** @param {KeyboardEvent} event */
    function press(event) {
      const from = event.target instanceof Element ? event.target : document.body;
      const isTaken = from.closest("button, input, select, textarea, summary, a");
      const isTyped = from.closest("input, select, textarea");
      if (isAtDoor || event.altKey || event.ctrlKey || event.metaKey || event.repeat) {
        return;
      }
      if (event.key === " " && !isTaken) {
        event.preventDefault();
        panel.toggle();
      } else if (event.key === "ArrowLeft" && !isTyped) {
        panel.turn(-1);
      } else if (event.key === "ArrowRight" && !isTyped) {
        panel.turn(1);
      }
    }

    // Another window kept or erased the class.
    function follow() {
      if (store.has()) {
        catchUp();
      } else if (isKept) {
        state = t.cleanClass({ version: 1, plan: screen.plan });
      }
      isAtDoor = isAtDoor || state.began === null;
      show();
    }

    function listen() {
      find("[data-tl-start]").addEventListener("click", () => turnTo(false));
      find("[data-tl-to-door]").addEventListener("click", () => turnTo(true));
      document.addEventListener("keydown", press);
      window.addEventListener("storage", (event) => {
        if (event.key === screen.key || event.key === null) {
          follow();
        }
      });
      document.addEventListener("visibilitychange", () => {
        if (!document.hidden) {
          follow();
        }
      });
      window.addEventListener("beforeunload", (event) => {
        if (!isKept && around.rows().length > 0) {
          event.preventDefault();
        }
      });
      t.stopEchoes(document.body, "[data-tl-watch], [data-tl-previous], [data-tl-following]");
    }

    async function takeBackup() {
      const text = await backup.read();
      const kept = t.readClass(text);
      if (kept.revision > state.revision) {
        take(kept);
        show();
      }
      document.documentElement.classList.add("is-ready");
    }

    take(state);
    around.fold(document);
    listen();
    show();
    window.setInterval(tick, TICK_MS);
    takeBackup();
  }

  start();
})();
