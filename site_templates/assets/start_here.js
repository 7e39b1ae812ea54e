// "Start here": one question at a time, a clinician first where one is needed, then where to start.
// Nothing is kept and nothing leaves the device.
(function () {
  "use strict";

  const TRIES = 3;
  const REST_SECONDS = 60;
  const MOST_SECONDS = 60; // nobody needs longer for an easy hold

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
    let hold = makeHold();

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
      on.disabled = !isAnswered(here()) || hold.isRunning();
      on.textContent = at === steps.length - 1 ? "Show where to start" : "Go on";
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
        element.append(`${start.title}: `, link);
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
      find("given-on").textContent = `What you answered on ${t.wordDate(new Date(), date)}`;
      find("held").hidden = hold.best() === null;
      find("held").textContent = `Your comfortable hold: ${hold.words()}. It is a number to compare with your own next one, and says nothing about health.`;
      form.hidden = true;
      find("result").hidden = false;
      t.makeFinder(find("result"))(":scope > div:not([hidden]) h2").focus();
    }

    function goOn() {
      if (at === 0 && picked(here()) !== "none") {
        finish(true);
      } else if (at === steps.length - 1) {
        finish(false);
      } else {
        at += 1;
        show();
        t.makeFinder(here())("input").focus();
      }
    }

    // Three tries at most, a minute between them, over at the first urge or after a minute.
    function makeHold() {
      const button = () => find("hold", HTMLButtonElement); // missing where nothing is timed
      /** @type {number[]} */
      const seconds = [];
      let from = 0;
      let timer = 0;
      let rest = 0;

      function now() {
        return window.performance.now();
      }

      function tell() {
        const tries = seconds.map((each) => `${each} s`).join(", ");
        const left = TRIES - seconds.length;
        const more = left ? ` Up to ${left} more, after a minute of normal breathing.` : " That is all for today.";
        find("tries").textContent = seconds.length ? `Tries: ${tries}.${more}` : "";
      }

      function end() {
        window.clearInterval(timer);
        timer = 0;
        seconds.push(Math.min(MOST_SECONDS, Math.max(1, Math.floor((now() - from) / 1000))));
        rest = now() + REST_SECONDS * 1000;
        tell();
        timer = window.setInterval(pause, 200);
        pause();
        show();
      }

      function pause() {
        const left = Math.ceil((rest - now()) / 1000);
        if (seconds.length >= TRIES || left <= 0) {
          window.clearInterval(timer);
          timer = 0;
          find("time").textContent = "";
          button().textContent = "Start the hold";
          button().disabled = seconds.length >= TRIES || !find("calm", HTMLInputElement).checked;
          return;
        }
        button().disabled = true;
        button().textContent = "Breathe normally";
        find("time").textContent = `${left} s`;
      }

      function begin() {
        from = now();
        button().textContent = "First urge: stop";
        timer = window.setInterval(() => {
          const gone = Math.floor((now() - from) / 1000);
          find("time").textContent = `${gone} s`;
          if (gone >= MOST_SECONDS) {
            end();
          }
        }, 100);
        show();
      }

      const isRunning = () => timer !== 0 && button().textContent === "First urge: stop";
      return {
        isRunning,
        press: () => (isRunning() ? end() : begin()),
        best: () => (seconds.length ? Math.max(...seconds) : null),
        words: () => seconds.map((each) => `${each} s`).join(", "),
        /** @param {boolean} isCalm */
        allow(isCalm) {
          if (timer === 0) {
            button().disabled = !isCalm || seconds.length >= TRIES;
          }
        },
      };
    }

    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("change", () => {
      const calm = document.querySelector("[data-tl-calm]");
      if (calm instanceof HTMLInputElement) {
        hold.allow(calm.checked);
      }
      show();
    });
    on.addEventListener("click", goOn);
    find("back").addEventListener("click", () => {
      at -= 1;
      show();
    });
    document.querySelector("[data-tl-hold]")?.addEventListener("click", () => hold.press());
    find("print").addEventListener("click", () => window.print());
    find("again").addEventListener("click", () => window.location.reload());
    form.dataset.tlReady = "yes";
    form.reset();
    form.hidden = false;
    find("scriptless").hidden = true;
    show();
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
