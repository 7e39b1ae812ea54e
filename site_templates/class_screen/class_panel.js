// The panel of a class: the block that is on, its count and clock, rests, tones and the screen.
(function () {
  "use strict";

  const t = window.tempoleaf;
  const { say } = t.words;
  const MINUTE_MS = 60000;

  /** @param {number} ms */
  function clockWords(ms) {
    const seconds = Math.ceil(ms / 1000);
    return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  }

  /** @type {Tempoleaf["makePanel"]} */
  function makePanel(around) {
    const { screen } = around;
    const { blocks } = screen;
    const find = t.makeFinder(document);
    const bar = find("[data-tl-bar]", HTMLProgressElement);
    const clock = t.makeClock();
    const planned = blocks.filter((block) => block.spare === 0).length;
    const sound = t.makeSound(clock, () => tellSound(true));
    const wake = t.makeWake(() => tellWake());
    const isMute = !window.AudioContext && !window.webkitAudioContext;
    let toldAt = "";
    let wasStand = "";
    let drawnAt = "";

    // What was written is remembered: ten times a second the page is left alone where it can be.
    /** @type {Map<string, {part: HTMLElement, text: string}>} */
    const written = new Map();

    /** @param {string} name @param {string} text */
    function put(name, text) {
      const known = written.get(name) || { part: find(`[data-tl-${name}]`), text: "" };
      if (known.text !== text) {
        known.part.textContent = text;
        written.set(name, { ...known, text });
      }
    }

    /** @param {boolean} isShown */
    function tellSound(isShown) {
      find("[data-tl-no-tones]").hidden = !isMute;
      find("[data-tl-mute-note]").hidden = !isShown;
    }

    function tellWake() {
      t.findAll(document, "[data-tl-dark]").forEach((part) => {
        part.hidden = false;
      });
    }

    function stand() {
      return t.standRun(around.state.run, blocks, Date.now());
    }

    /** @param {number} index */
    function blockAt(index) {
      return blocks[index] || null;
    }

    /** Which block the large button begins. */
    function target() {
      const { run, shown } = around.state;
      return run.kind === "rest" && shown === run.block ? run.block + 1 : shown;
    }

    /** The run as tones want it: positions of the wall clock on the clock that sound keeps. */
    function asSession() {
      const { run } = around.state;
      const block = blocks[run.block];
      if (!block || run.kind !== "block" || run.held !== null) {
        return null;
      }
      const at = () => Date.now() - run.from;
      return {
        plan: t.planOf(block),
        isPaused: false,
        isOpen: false,
        isAgain: false,
        position: (/** @type {number} */ now) => at() + now - clock.now(),
        clockOf: (/** @type {number} */ place) => clock.now() + place - at(),
      };
    }

    function queue() {
      const session = asSession();
      if (session && !around.state.isSilent) {
        sound.queue(session);
      }
    }

    async function startSound() {
      sound.drop(-Infinity);
      if (!around.state.isSilent) {
        await sound.start();
        tellSound(!isMute && !sound.keepsTime());
        queue();
      }
    }

    /** @param {(now: number) => Run} next @param {number} [shown] */
    function go(next, shown) {
      around.change((state) => {
        state.run = next(Date.now());
        state.shown = shown ?? state.run.block;
      });
      startSound();
    }

    function begin() {
      const index = target();
      if (blockAt(index)) {
        go((now) => t.beginBlock(index, now), index);
      }
    }

    function toggle() {
      const { shown } = around.state;
      const { kind } = stand();
      if (kind === "block") {
        go((now) => t.pauseRun(around.state.run, now), shown);
      } else if (kind === "paused") {
        go((now) => t.resumeRun(around.state.run, blocks, now), shown);
      } else {
        begin();
      }
    }

    /** @param {number} by */
    function turn(by) {
      show(around.state.shown + by);
    }

    /** @param {number} index */
    function show(index) {
      if (blockAt(index)) {
        around.change((state) => {
          state.shown = index;
        });
        const people = find("[data-tl-people]");
        if (people.getBoundingClientRect().top < 0) {
          people.scrollIntoView();
        }
      }
    }

    /* What is seen */

    /** @param {Stand} now */
    function drawPlace(now) {
      const block = blockAt(now.block);
      const place = now.place;
      if (!block || !place) {
        put("step", now.kind === "rest" ? say("Rest") : say("When all are ready"));
        put("second", "");
        put("detail", now.kind === "rested" && block?.rest ? say("The rest is over.") : "");
        return;
      }
      const isPaused = now.kind === "paused";
      const words = t.makeWords(screen.say, block.drill.sides);
      const told = { plan: t.planOf(block), isPaused, isOpen: false, isAgain: false };
      put("step", words.wordFor(told, place));
      const hasSecond = place.step !== "" && !isPaused;
      put("second", hasSecond ? words.numberFor(told, place) : "");
      put("detail", block.isShared ? words.whereWords(told, place) : "");
    }

    /** @param {Stand} now */
    function drawBar(now) {
      const block = blockAt(now.block);
      const whole = block ? (now.place ? t.planOf(block).endMs : block.rest * 1000) : 0;
      const isLead = now.place?.kind === "lead";
      bar.value = whole && !isLead && now.kind !== "wait" ? 1 - now.left / whole : 0;
    }

    /** @param {Stand} now */
    function drawButtons(now) {
      const { run, shown } = around.state;
      const next = target();
      const isOn = now.kind === "block" || now.kind === "paused";
      const isElsewhere = isOn && shown !== run.block;
      const names = { block: blockAt(next)?.name || "" };
      const words =
        now.kind === "block" ? t.words.fill(screen.say.pause_button, {})
        : now.kind === "paused" ? say("Go on")
        : say("Begin {block}", names);
      put("go", words);
      find("[data-tl-go]").hidden = !isOn && !blockAt(next);
      find("[data-tl-end]").hidden = !isOn;
      find("[data-tl-instead]").hidden = !isElsewhere;
      put("instead", say("Begin {block} instead", names));
      const wasCut = run.kind === "rest" && run.held !== null;
      find("[data-tl-undo]").hidden = !wasCut;
      const on = blockAt(run.block)?.name || "";
      put("undo", say("Go on with {block}", { block: on }));
      const seen = { shown: blockAt(shown)?.name || "", block: on };
      put("elsewhere", isElsewhere ? say("You look at {shown}; {block} is on.", seen) : "");
      const isDone = run.kind === "rest" && run.block + 1 >= planned;
      find("[data-tl-finished]").hidden = isOn || !isDone;
    }

    /** @param {number} index @param {boolean} isShown */
    function drawAhead(index, isShown) {
      t.findAll(document, "[data-tl-ahead]").forEach((part) => {
        part.hidden = !isShown || part.dataset.tlAhead !== String(index);
      });
    }

    /** @param {Stand} now */
    function drawBehind(now) {
      const { began } = around.state;
      const next = blockAt(target());
      const isOn = now.kind === "block" || now.kind === "paused";
      const late = began && next && !isOn && next.start !== null ? Date.now() - began - next.start * 1000 : 0;
      const minutes = Math.floor(late / MINUTE_MS);
      put("behind", minutes > 0 ? say("{count} min later than planned", { count: minutes }) : "");
    }

    /** @param {Stand} now */
    function tellChange(now) {
      const block = blockAt(now.block);
      const next = blockAt(now.block + 1);
      const moment = `${now.kind}/${now.block}`;
      if (!block || moment === toldAt) {
        return;
      }
      const ahead = next ? say("Next: {block}", { block: next.words }) : "";
      const isLast = block.number >= planned;
      const after = [isLast && say("That was the last block of the plan."), ahead].filter(Boolean).join(" ");
      if (toldAt && now.kind === "block") {
        around.hear(block.words);
      } else if (toldAt && now.kind === "paused") {
        around.hear(say("Paused"));
      } else if (toldAt && now.kind === "rest") {
        const rest = say("Rest {seconds} s", { seconds: block.rest });
        around.hear(`${rest}. ${after}`);
      } else if (toldAt && now.kind === "rested") {
        around.hear(block.rest ? say("The rest is over.") : after);
      }
      toldAt = moment;
    }

    /** @param {Stand} now */
    function soundRest(now) {
      if (wasStand === "rest" && now.kind === "rested" && !around.state.isSilent) {
        sound.playNow("rest");
      }
      wasStand = now.kind;
    }

    /** What changes with time alone. @param {Stand} now */
    function drawTime(now) {
      drawPlace(now);
      const hasClock = now.place !== null || now.kind === "rest";
      put("clock", hasClock ? clockWords(now.left) : "");
      const line = ["step", "second", "clock"].map((name) => written.get(name)?.text);
      put("strip", hasClock ? line.filter(Boolean).join(" \u00b7 ") : "");
      drawBar(now);
      drawBehind(now);
    }

    /** @param {ScreenBlock | null} block */
    function whereWords(block) {
      const [number, count] = [block?.number || 0, blocks.length - planned];
      return block?.spare
        ? say("Extra block {number} of {count}", { number: block.spare, count })
        : say("Block {number} of {count}", { number, count: planned });
    }

    /** @param {Stand} now */
    function drawBlocks(now) {
      const { shown } = around.state;
      const isOn = now.place !== null;
      put("where", whereWords(blockAt(now.block)));
      drawButtons(now);
      drawAhead(target(), !isOn);
      t.findAll(document, "[data-tl-block-tiles]").forEach((part) => {
        part.hidden = part.dataset.tlBlockTiles !== String(shown);
      });
      t.findAll(document, "[data-tl-show]").forEach((button) => {
        const index = Number(button.dataset.tlShow);
        button.setAttribute("aria-current", index === shown ? "step" : "false");
        button.classList.toggle("is-on", isOn && index === now.block);
      });
    }

    /** @param {boolean} isWhole */
    function draw(isWhole) {
      const now = stand();
      const moment = `${now.kind}/${now.block}/${around.state.shown}`;
      if (isWhole || moment !== drawnAt) {
        drawBlocks(now);
        drawnAt = moment;
      }
      drawTime(now);
      tellChange(now);
      soundRest(now);
    }

    function followPage() {
      document.addEventListener("visibilitychange", () => {
        if (!document.hidden && around.state.began !== null) {
          wake.hold();
          queue();
        }
      });
      if (!navigator.wakeLock) {
        tellWake();
      }
      // After a reload sound waits for a touch.
      tellSound(!isMute && !around.state.isSilent && asSession() !== null);
    }

    /** @type {Record<string, () => void>} */
    const clicks = {
      go: toggle,
      end: () => go((now) => t.endBlock(around.state.run, now)),
      instead: () => begin(),
      undo: () => go((now) => t.resumeRun(around.state.run, blocks, now)),
      previous: () => turn(-1),
      following: () => turn(1),
      sound() {
        around.change((state) => {
          state.isSilent = !state.isSilent;
        });
        sound.turn(!around.state.isSilent);
        startSound();
      },
    };
    for (const [name, act] of Object.entries(clicks)) {
      find(`[data-tl-${name}]`).addEventListener("click", act);
    }
    t.findAll(document, "[data-tl-show]").forEach((button) => {
      button.addEventListener("click", () => show(Number(button.dataset.tlShow)));
    });
    // After a reload a browser lets sound begin only with a touch.
    document.addEventListener("click", () => !sound.keepsTime() && asSession() && startSound());
    followPage();

    return {
      show() {
        const { began, isSilent } = around.state;
        find("[data-tl-sound]").setAttribute("aria-pressed", String(!isSilent));
        if (began === null) {
          wake.free();
        } else {
          wake.hold();
        }
        draw(true);
      },
      tick() {
        queue();
        draw(false);
      },
      toggle,
      turn,
    };
  }

  window.tempoleaf = Object.assign(
    window.tempoleaf || {},
    /** @satisfies {ClassPanelScript} */ ({ makePanel }),
  );
})();
