// A class screen: brings its parts together, keeps every tap at once, and lets time pass.
(function () {
  "use strict";

  const t = window.tempoleaf;
  const TICK_MS = 100;
  const LATE_MS = 1500; // where ticks stay away for so long, the device slept

  function openStorage() {
    try {
      return window.localStorage;
    } catch (error) {
      return null; // storage is switched off
    }
  }

  function start() {
    const find = t.makeFinder(document);
    /** @type {ScreenClass} */
    const screen = JSON.parse(find("[data-tl-class]").textContent);
    const store = t.makeClassStore(openStorage(), screen.key);
    let state = sound(store.read());
    let isKept = store.write(state);
    let isAtDoor = state.began === null;
    let tickedAt = Date.now();

    /** A plan may have fewer blocks than the one that was kept. @param {ClassState} found */
    function sound(found) {
      const last = screen.blocks.length - 1;
      found.shown = Math.min(found.shown, last);
      if (found.run.block > last) {
        found.run = { kind: "wait", block: last, from: 0, held: null };
      }
      t.dropLateWatches(found, Date.now());
      return found;
    }

    const around = {
      screen,
      get state() {
        return state;
      },
      /** @param {(state: ClassState) => void} alter */
      change(alter) {
        alter(state);
        isKept = store.write(state);
        show();
      },
      /** @param {string} words */
      tell(words) {
        find("[data-tl-told]").textContent = words;
      },
      /** @param {string} words */
      hear(words) {
        find("[data-tl-heard]").textContent = words;
      },
      erase() {
        store.erase();
        state = t.cleanClass(null);
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
        state.began === null ? t.words.say("Start the class") : t.words.say("Back to the class");
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

    function tick() {
      const now = Date.now();
      const wasAsleep = now - tickedAt > LATE_MS;
      tickedAt = now;
      const changed = wasAsleep ? t.dropLateWatches(state, now) : t.endWatches(state, screen.day, now);
      const run = t.settleRun(state.run, screen.blocks, now);
      if (changed || run !== state.run) {
        around.change((kept) => {
          kept.run = run;
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

    find("[data-tl-start]").addEventListener("click", () => turnTo(false));
    find("[data-tl-to-door]").addEventListener("click", () => turnTo(true));
    document.addEventListener("keydown", press);
    // The same class in two windows: what the other one keeps is what is true.
    window.addEventListener("storage", (event) => {
      if (event.key === screen.key || event.key === null) {
        state = sound(store.read());
        show();
      }
    });
    t.stopEchoes(document.body, "[data-tl-watch], [data-tl-previous], [data-tl-following]");
    show();
    document.documentElement.classList.add("is-ready");
    window.setInterval(tick, TICK_MS);
  }

  start();
})();
