// Moves a lesson's figure through a breath. The page shows both ends of the breath without it.
// The clock is the caller's.
(function () {
  "use strict";

  const FILLS = {
    near: "#aebfb8",
    far: "#e3e9e6",
    trunk: "#cad6d1",
    hair: "#56655f",
    prop: "#efe9da",
    "prop-top": "#f8f4ea",
  };
  /** @typedef {keyof typeof FILLS} Tone */
  /** @typedef {{tone: Tone, steps: (string | number)[]}} Part steps of an SVG path */
  const SVG = "http://www.w3.org/2000/svg";
  const { say } = window.tempoleaf.words;
  const REST = say("Hold or pause");
  const WORDS = [say("Breathe in"), REST, say("Breathe out"), REST];

  /** @param {string} text @returns {Part["steps"]} */
  function readSteps(text) {
    const steps = text.match(/[A-Za-z]|-?[\d.]+/g) || [];
    return steps.map((step) => (/[A-Za-z]/.test(step) ? step : Number(step)));
  }

  /** @param {Part[]} first @param {Part[]} second */
  function areAlike(first, second) {
    return (
      first.length === second.length &&
      first.every(function (part, index) {
        const other = second[index];
        return (
          other !== undefined &&
          part.tone === other.tone &&
          part.steps.length === other.steps.length &&
          part.steps.every((step, at) => typeof step === "number" || step === other.steps[at])
        );
      })
    );
  }

  /** @param {Part["steps"]} first @param {Part["steps"]} second @param {number} share */
  function mix(first, second, share) {
    return first.map(function (step, index) {
      const other = second[index];
      if (typeof step !== "number" || typeof other !== "number") {
        return step;
      }
      return Math.round((step + (other - step) * share) * 10) / 10;
    });
  }

  /** @param {Element} group */
  function addPath(group) {
    const path = document.createElementNS(SVG, "path");
    group.appendChild(path);
    return path;
  }

  /** @type {Tempoleaf["makeFigure"]} */
  function makeFigure(svg, text) {
    /** @type {[Tone, string][][]} */
    const read = JSON.parse(text);
    const frames = read.map((parts) =>
      parts.map(([tone, path]) => ({ tone, steps: readSteps(path) })),
    );
    const group = window.tempoleaf.makeFinder(svg)("g", SVGGElement);
    /** @type {SVGPathElement[][]} */
    let pairs = [];

    /** @param {Part[]} parts */
    function dress(parts) {
      group.textContent = "";
      pairs = parts.map(function (part) {
        const [line, fill] = [addPath(group), addPath(group)];
        fill.setAttribute("fill", FILLS[part.tone]);
        fill.setAttribute("stroke", "none");
        return [line, fill];
      });
    }

    /** @type {Part[] | null} */
    let dressed = null;
    return function show(share) {
      const place = Math.min(Math.max(share, 0), 1) * (frames.length - 1);
      const index = Math.min(Math.floor(place), frames.length - 2);
      const [first = [], second = []] = frames.slice(index, index + 2);
      const alike = areAlike(first, second);
      const parts = alike || place - index < 0.5 ? first : second;
      if (!dressed || !areAlike(dressed, parts)) {
        dress(parts);
        dressed = parts;
      }
      parts.forEach(function (part, at) {
        const next = alike ? second[at] : undefined;
        const steps = next ? mix(part.steps, next.steps, place - index) : part.steps;
        const text = steps.join(" ");
        pairs[at]?.forEach((path) => path.setAttribute("d", text));
      });
    };
  }

  // Returns the words for a time and how full the breath is then, softly at both ends.
  /** @param {number[]} phases @param {number} seconds */
  function findMoment(phases, seconds) {
    const cycle = phases.reduce((sum, phase) => sum + phase, 0);
    let left = seconds % cycle;
    let phase = 0;
    let lasts = phases[0] || 0;
    while (left >= lasts && phase < 3) {
      left -= lasts;
      phase += 1;
      lasts = phases[phase] || 0;
    }
    const soft = (1 - Math.cos((Math.PI * left) / (lasts || 1))) / 2;
    return { words: WORDS[phase] || "", share: [soft, 1, 1 - soft, 0][phase] || 0 };
  }

  /** @param {HTMLElement} box */
  function prepare(box) {
    const find = window.tempoleaf.makeFinder(box);
    const moving = find(".tl-figure__moving");
    const button = find(".tl-figure__button");
    const pair = find(".tl-figure__pair");
    const frames = find(".tl-figure__frames").textContent;
    const phases = window.tempoleaf.dataOf(box, "tlPhases").split(" ").map(Number);
    const words = document.createElement("p");
    /** @type {ShowFigure | null} */
    let show = null;
    let start = 0;
    let isOn = false;

    words.setAttribute("aria-hidden", "true");
    moving.appendChild(words);

    /** @param {number} now */
    function step(now) {
      if (!isOn || !show) {
        return;
      }
      const moment = findMoment(phases, (now - start) / 1000);
      show(moment.share);
      words.textContent = moment.words;
      window.requestAnimationFrame(step);
    }

    /** @param {boolean} on */
    function turn(on) {
      isOn = on;
      moving.hidden = !on;
      pair.hidden = on;
      button.textContent = on ? say("Stop moving") : say("Show it moving");
      if (on) {
        show = show || makeFigure(find(".tl-figure__moving svg", SVGSVGElement), frames);
        start = window.performance.now();
        window.requestAnimationFrame(step);
      }
    }

    const calm = window.matchMedia("(prefers-reduced-motion: reduce)");
    function follow() {
      button.hidden = calm.matches;
      if (calm.matches) {
        turn(false);
      }
    }
    button.addEventListener("click", () => turn(!isOn));
    calm.addEventListener("change", follow);
    document.addEventListener("visibilitychange", () => document.hidden && isOn && turn(false));
    follow();
  }

  function start() {
    window.tempoleaf.findAll(document, ".tl-figure").forEach(prepare);
  }

  window.tempoleaf = Object.assign(
    window.tempoleaf || {},
    /** @satisfies {FigureScript} */ ({ makeFigure }),
  );

  if (document.readyState === "loading") {
    document.addEventListener("DOMContentLoaded", start);
  } else {
    start();
  }
})();
