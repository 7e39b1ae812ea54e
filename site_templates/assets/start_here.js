// "Start here": one question at a time, a clinician first where one is needed, then where to start.
// Nothing leaves the device, and nothing is kept but the tries of a timed hold, until the tab is
// closed.
(function () {
  "use strict";

  const KEY = "tempoleaf.hold";
  const { say, sayMany, sayParts } = window.tempoleaf.words;
  const BUTTON = {
    ready: say("Start the hold"),
    running: say("First urge: stop"),
    resting: say("Breathe normally"),
    over: say("Start the hold"),
  };

  /**
   * @typedef {Object} Table
   * @property {(Start & {title: string})[]} starts
   * @property {Record<string, {title: string, href: string}>} lessons those of the course, by id
   */

  /** @param {HTMLFormElement} form */
  function ask(form) {
    const t = window.tempoleaf;
    const findOn = t.makeFinder(document);
    /** @type {Finder} */
    const find = (name, type) => findOn(`[data-tl-${name}]`, type);
    /** @type {Table} */
    const table = JSON.parse(find("table").textContent);
    const steps = t.findAll(form, "[data-tl-step]");
    const on = find("on", HTMLButtonElement);
    let at = 0;
    const hold = t.makeHold(readHold());
    let isHolding = false;

    function here() {
      const step = steps[at];
      if (!step) {
        throw new RangeError(`the check has no step ${at}`);
      }
      return step;
    }

    /** @param {HTMLElement} step */
    function picked(step) {
      const input = step.querySelector("input[type=radio]:checked");
      return input instanceof HTMLInputElement ? input.value : null;
    }

    /** @param {HTMLElement} step */
    function isAnswered(step) {
      if (step.dataset.tlTimed !== undefined) {
        return picked(step) !== null || hold.best() !== null;
      }
      return picked(step) !== null;
    }

    function show() {
      steps.forEach((step, index) => {
        step.hidden = index !== at;
      });
      find("back").hidden = at === 0;
      on.disabled = !isAnswered(here()) || isHolding;
      on.textContent = at === steps.length - 1 ? say("Show where to start") : say("Go on");
    }

    function answers() {
      /** @type {Record<string, string | number>} */
      const given = {};
      steps.slice(1).forEach((step) => {
        const isTimed = step.dataset.tlTimed !== undefined;
        const best = picked(step) === null ? hold.best() : null;
        const value = isTimed ? best : picked(step);
        if (value !== null) {
          given[t.dataOf(step, "tlStep")] = value;
        }
      });
      return given;
    }

    /** @param {{title: string, lesson: string, why: string}} start */
    function item(start) {
      const element = document.createElement("li");
      const lesson = table.lessons[start.lesson];
      if (lesson) {
        const link = document.createElement("a");
        link.textContent = lesson.title;
        link.href = lesson.href;
        element.append(...sayParts("{strand}: {lesson}", { strand: start.title, lesson: link }));
      } else {
        const name = document.createElement("strong");
        name.textContent = start.title;
        element.append(name);
      }
      element.append(document.createElement("br"), start.why);
      return element;
    }

    // What a coach is shown: each question with its answer.
    function listGiven() {
      return steps.slice(1).flatMap((step) => {
        const input = step.querySelector("input[type=radio]:checked");
        const words = input?.closest("label")?.textContent?.trim() || hold.words();
        const pair = [document.createElement("dt"), document.createElement("dd")];
        [t.makeFinder(step)("legend").textContent, words].forEach((text, index) => {
          pair[index]?.append(text || "");
        });
        return pair;
      });
    }

    /** @param {boolean} asksFirst */
    function finish(asksFirst) {
      const titles = Object.fromEntries(table.starts.map((each) => [each.strand, each.title]));
      const starts = t
        .place(table.starts, answers(), asksFirst)
        .map((each) => ({ ...each, title: titles[each.strand] || "" }));
      find("start").replaceChildren(...starts.filter((each) => each.lesson).map(item));
      find("wait").replaceChildren(...starts.filter((each) => !each.lesson).map(item));
      find("result-first").hidden = !asksFirst;
      find("result-start").hidden = asksFirst;
      find("given").replaceChildren(...(asksFirst ? [] : listGiven()));
      /** @type {Intl.DateTimeFormatOptions} */
      const date = { day: "numeric", month: "long", year: "numeric" };
      const day = t.wordDate(new Date(), date);
      find("given-on").textContent = say("What you answered on {day}", { day });
      find("held").hidden = hold.best() === null;
      find("held").textContent = say(
        "Your comfortable hold: {tries}. It is a number to compare with your own next one, and says nothing about health.",
        { tries: hold.words() },
      );
      form.hidden = true;
      find("result").hidden = false;
      t.makeFinder(find("result"))(":scope > div:not([hidden]) h2").focus();
    }

    /** @param {number} step */
    function turnTo(step) {
      at = step;
      show();
      const inputs = t.findAll(here(), "input", HTMLInputElement);
      (inputs.find((input) => input.checked) || inputs[0])?.focus();
    }

    function goOn() {
      if (at === 0 && picked(here()) !== "none") {
        finish(true);
      } else if (at === steps.length - 1) {
        finish(false);
      } else {
        turnTo(at + 1);
      }
    }

    /* The timed hold, where the course asks for one */

    const button = form.querySelector("[data-tl-hold]");
    /** @type {keyof typeof BUTTON | ""} */
    let shown = "";

    function showHold() {
      if (!(button instanceof HTMLButtonElement)) {
        return;
      }
      const place = hold.at(Date.now());
      const isReady = place.kind === "ready" && find("calm", HTMLInputElement).checked;
      button.disabled = place.kind !== "running" && !isReady;
      if (shown !== place.kind) {
        shown = place.kind; // once, so that a translated word stays translated
        button.textContent = BUTTON[shown];
      }
      const isTimed = place.seconds > 0 || place.kind === "running";
      find("time").textContent = isTimed ? say("{seconds} s", { seconds: place.seconds }) : "";
      const tries = hold.words() && wordTries(hold.words(), hold.left());
      if (find("tries").textContent !== tries) {
        find("tries").textContent = tries;
        keepHold(hold.kept());
      }
    }

    /** @param {string} tries @param {number} left */
    function wordTries(tries, left) {
      const told = say("Tries: {tries}.", { tries });
      if (left === 0) {
        return [told, say("That is all for today.")].join(" ");
      }
      const more = sayMany(
        "Up to {count} more, after a minute of normal breathing.",
        "Up to {count} more, after a minute of normal breathing.",
        left,
      );
      return [told, more].join(" ");
    }

    function tickHold() {
      const wasRunning = isHolding;
      isHolding = hold.at(Date.now()).kind === "running";
      showHold();
      if (wasRunning !== isHolding) {
        show();
      }
      if (wasRunning && !isHolding) {
        find("tries").focus(); // its button rests
      }
    }

    function pressHold() {
      t.findAll(here(), "input[type=radio]", HTMLInputElement).forEach((input) => {
        input.checked = false; // whoever holds doesn't leave it out
      });
      hold.press(Date.now());
      tickHold();
    }

    // A hold that nobody sees is none.
    function dropHold() {
      if (hold.drop()) {
        isHolding = false;
        showHold();
        show();
      }
    }

    if (button) {
      button.addEventListener("click", pressHold);
      document.addEventListener("visibilitychange", () => document.hidden && dropHold());
      window.addEventListener("pagehide", dropHold);
      window.setInterval(tickHold, 200);
      showHold();
    }

    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("change", () => {
      showHold();
      show();
    });
    on.addEventListener("click", goOn);
    find("back").addEventListener("click", () => {
      dropHold();
      turnTo(at - 1);
    });
    find("print").addEventListener("click", () => window.print());
    find("again").addEventListener("click", () => window.location.reload());
    form.dataset.tlReady = "yes";
    form.reset();
    form.hidden = false;
    find("scriptless").hidden = true;
    show();
  }

  // Until the tab is closed, so that loading the page again is no way round the rest.
  /** @returns {KeptHold} */
  function readHold() {
    try {
      const kept = JSON.parse(window.sessionStorage.getItem(KEY) || "null");
      if (Array.isArray(kept.seconds) && kept.seconds.every(Number.isFinite) && Number.isFinite(kept.restEnds)) {
        return kept;
      }
    } catch (error) {
      // nothing was kept, or not by us
    }
    return { seconds: [], restEnds: 0 };
  }

  /** @param {KeptHold} hold */
  function keepHold(hold) {
    try {
      window.sessionStorage.setItem(KEY, JSON.stringify(hold));
    } catch (error) {
      // a private window
    }
  }

  function start() {
    const form = document.querySelector("[data-tl-check]");
    if (form instanceof HTMLFormElement && !form.dataset.tlReady) {
      ask(form);
    }
  }

  if (document.readyState === "loading") {
    document.addEventListener("DOMContentLoaded", start);
  } else {
    start();
  }
})();
