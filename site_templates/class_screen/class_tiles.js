// The tiles of people in a block: outcomes, breaths and rest, readings and stopwatches.
(function () {
  "use strict";

  const t = window.tempoleaf;
  const { say } = t.words;
  const FAR_APART = 8;

  /** @param {Element} element @param {string} selector */
  function closest(element, selector) {
    const found = element.closest(selector);
    if (!(found instanceof HTMLElement)) {
      throw new Error(`the page has no ${selector} around a button`);
    }
    return found;
  }

  /** @param {Element} within */
  function keyOf(within) {
    const turn = closest(within, "[data-tl-turn]");
    return `${t.dataOf(turn, "tlBlock")}/${t.dataOf(turn, "tlTurn")}`;
  }

  /** @param {HTMLElement} within */
  function measureKeyOf(within) {
    const measure = closest(within, "[data-tl-measure]");
    const side = closest(within, "[data-tl-side]").dataset.tlSide || "";
    return `${keyOf(within)}/${t.dataOf(measure, "tlMeasure")}/${side}`;
  }

  /** @param {HTMLElement} within */
  function unitOf(within) {
    return closest(within, "[data-tl-measure]").dataset.tlUnit || "";
  }

  /** @param {HTMLElement} button @param {boolean} isOn */
  function press(button, isOn) {
    button.setAttribute("aria-pressed", String(isOn));
  }

  /** @type {Tempoleaf["makeTiles"]} */
  function makeTiles(around) {
    const { day } = around.screen;

    /** What the plan gives, unless it is changed. @param {HTMLElement} within */
    function givenOf(within) {
      const turn = closest(within, "[data-tl-turn]");
      const { tlBreaths: breaths = "", tlRest: rest = "" } = turn.dataset;
      return { breaths, rest, mark: t.makeMark(day) };
    }

    /** @param {HTMLElement} button */
    function tapOutcome(button) {
      const outcome = /** @type {Outcome} */ (t.dataOf(button, "tlOutcome"));
      around.change((state) => t.tapOutcome(state, keyOf(button), outcome, givenOf(button)));
    }

    /** @param {HTMLElement} button */
    function tapWord(button) {
      const key = `${measureKeyOf(button)}/1`;
      const word = t.dataOf(button, "tlWord");
      const value = around.state.readings[key]?.value === word ? "" : word;
      const mark = t.makeMark(day);
      around.change((state) => t.noteReading(state, key, { value, unit: "", mark }));
    }

    /** @param {HTMLElement} button */
    function tapWatch(button) {
      const given = { unit: unitOf(button), day, now: Date.now() };
      around.change((state) => t.pressWatch(state, measureKeyOf(button), given));
    }

    /** What stands in a field; null where it is no number of its range. @param {HTMLInputElement} input */
    function read(input) {
      const { tlLeast, tlMost, tlCount } = input.dataset;
      if (!input.value.trim()) {
        return "";
      }
      const value = t.readNumber(input.value, Number(tlLeast), Number(tlMost));
      return tlCount === undefined || /^\d+$/.test(value || "") ? value : null;
    }

    // Told when the field is left: a number that is still being typed is no fault.
    /** @param {HTMLInputElement} input */
    function tellRange(input) {
      const wasWrong = input.getAttribute("aria-invalid") === "true";
      const isWrong = read(input) === null;
      input.setAttribute("aria-invalid", String(isWrong));
      if (isWrong) {
        const { tlLeast: least = "", tlMost: most = "" } = input.dataset;
        around.tell(say("This is not kept: give a number from {least} to {most}.", { least, most }));
      } else if (wasWrong) {
        around.tell("");
      }
    }

    // A digit, a comma or a unit that slipped shows where one side is many times the other (ours).
    /** @param {HTMLInputElement} input */
    function tellFarApart(input) {
      const sides = t.findAll(closest(input, "[data-tl-measure]"), "[data-tl-number]", HTMLInputElement);
      const values = sides.map((side) => Math.abs(Number(read(side)))).filter((value) => value > 0);
      if (values.length > 1 && Math.max(...values) >= FAR_APART * Math.min(...values)) {
        around.tell(say("Left and right are far apart: see whether a digit, a comma or the unit slipped."));
      }
    }

    /** @param {HTMLInputElement} input */
    function typeCount(input) {
      const name = input.dataset.tlCount === "rest" ? "rest" : "breaths";
      around.change((state) => {
        const key = keyOf(input);
        const { mark, ...given } = givenOf(input);
        const kept = state.turns[key] || { ...given, outcome: "", entry: mark };
        state.turns[key] = { ...kept, [name]: read(input) || "" };
      });
    }

    // What is no number isn't kept, and what stood there before doesn't go out in its place.
    /** @param {HTMLInputElement} input */
    function typeNumber(input) {
      const given = { value: read(input) || "", unit: unitOf(input), mark: t.makeMark(day) };
      around.change((state) => t.noteReading(state, `${measureKeyOf(input)}/1`, given));
    }

    /** @type {[string, (button: HTMLElement) => void][]} */
    const taps = [
      ["[data-tl-outcome]", tapOutcome],
      ["[data-tl-word]", tapWord],
      ["[data-tl-watch]", tapWatch],
      [
        "[data-tl-untry]",
        (button) => around.change((state) => t.takeBackTrial(state, measureKeyOf(button))),
      ],
    ];
    document.addEventListener("click", (event) => {
      for (const [selector, act] of taps) {
        const button = event.target instanceof Element && event.target.closest(selector);
        if (button instanceof HTMLElement) {
          act(button);
          if (event.detail > 0) {
            button.blur(); // after a touch, the space bar pauses and doesn't tap again
          }
        }
      }
    });
    document.addEventListener("input", (event) => {
      const input = event.target;
      if (input instanceof HTMLInputElement && input.dataset.tlCount !== undefined) {
        typeCount(input);
      } else if (input instanceof HTMLInputElement && input.dataset.tlNumber !== undefined) {
        typeNumber(input);
      }
    });
    document.addEventListener("change", (event) => {
      const input = event.target;
      if (input instanceof HTMLInputElement && input.dataset.tlLeast !== undefined) {
        tellRange(input);
        if (input.dataset.tlNumber !== undefined && read(input)) {
          tellFarApart(input);
        }
      }
    });

    /** @param {HTMLElement} turn */
    function showTurn(turn) {
      const kept = around.state.turns[keyOf(turn)];
      t.findAll(turn, "[data-tl-outcome]").forEach((button) => {
        press(button, kept?.outcome === button.dataset.tlOutcome);
      });
      turn.classList.toggle("is-noted", Boolean(kept?.outcome));
      const given = { breaths: turn.dataset.tlBreaths, rest: turn.dataset.tlRest };
      t.findAll(turn, "[data-tl-count]", HTMLInputElement).forEach((input) => {
        const name = input.dataset.tlCount === "rest" ? "rest" : "breaths";
        showValue(input, (kept ? kept[name] : given[name]) || "");
      });
    }

    /** @param {HTMLInputElement} input @param {string} value */
    function showValue(input, value) {
      if (document.activeElement !== input && input.getAttribute("aria-invalid") !== "true") {
        input.value = value;
      }
    }

    /** @param {HTMLElement} side */
    function showReadings(side) {
      const value = around.state.readings[`${measureKeyOf(side)}/1`]?.value || "";
      t.findAll(side, "[data-tl-word]").forEach((button) => {
        press(button, button.dataset.tlWord === value);
      });
      t.findAll(side, "[data-tl-number]", HTMLInputElement).forEach((input) => {
        showValue(input, value);
      });
    }

    /** @param {HTMLElement} side @param {number} now */
    function showWatch(side, now) {
      const find = t.makeFinder(side);
      const key = measureKeyOf(side);
      const { kind, seconds } = t.readWatch(around.state, key, now);
      const button = find("[data-tl-watch]", HTMLButtonElement);
      const words = {
        ready: say("Start the hold"),
        running: say("First urge: stop, {seconds} s", { seconds }),
        resting: say("Rest {seconds} s", { seconds }),
        over: say("Three are enough"),
      };
      const isShut = kind === "resting" || kind === "over";
      setText(button, words[kind]);
      button.setAttribute("aria-disabled", String(isShut));
      press(button, kind === "running");
      const trials = t.listTrials(around.state, key);
      setText(find("[data-tl-trials]"), trials.map((each) => say("{seconds} s", { seconds: each })).join(", "));
      find("[data-tl-untry]").hidden = trials.length === 0;
    }

    /** @param {HTMLElement} element @param {string} text */
    function setText(element, text) {
      if (element.textContent !== text) {
        element.textContent = text;
      }
    }

    /** @param {number} now */
    function tick(now) {
      const shown = document.querySelector("[data-tl-block-tiles]:not([hidden])");
      t.findAll(shown || document, "[data-tl-watches]").forEach((side) => showWatch(side, now));
    }

    return {
      show() {
        t.findAll(document, "[data-tl-turn]").forEach(showTurn);
        t.findAll(document, "[data-tl-readings]").forEach(showReadings);
        tick(Date.now());
      },
      tick,
    };
  }

  window.tempoleaf = Object.assign(
    window.tempoleaf || {},
    /** @satisfies {ClassTilesScript} */ ({ makeTiles }),
  );
})();
