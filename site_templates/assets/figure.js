// Moves a lesson's figure through a breath. The page shows both ends of the breath without it.
// The clock is the caller's: show(share) draws the body between the end of an out-breath (0) and
// the end of an in-breath (1).
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
  const SVG = "http://www.w3.org/2000/svg";
  const WORDS = ["Breathe in", "Hold or pause", "Breathe out", "Hold or pause"];

  function readSteps(text) {
    const steps = text.match(/[A-Za-z]|-?[\d.]+/g) || [];
    return steps.map((step) => (/[A-Za-z]/.test(step) ? step : Number(step)));
  }

  function areAlike(first, second) {
    return (
      first.length === second.length &&
      first.every(function (part, index) {
        const other = second[index];
        return (
          part.tone === other.tone &&
          part.steps.length === other.steps.length &&
          part.steps.every((step, at) => typeof step === "number" || step === other.steps[at])
        );
      })
    );
  }

  function mix(first, second, share) {
    return first.map(function (step, index) {
      if (typeof step !== "number") {
        return step;
      }
      return Math.round((step + (second[index] - step) * share) * 10) / 10;
    });
  }

  function addPath(group) {
    const path = document.createElementNS(SVG, "path");
    group.appendChild(path);
    return path;
  }

  // Returns what draws a figure: call it with 0 (end of the out-breath) to 1 (end of the in-breath).
  function makeFigure(svg, text) {
    const frames = JSON.parse(text).map((parts) =>
      parts.map((part) => ({ tone: part[0], steps: readSteps(part[1]) })),
    );
    const group = svg.querySelector("g");
    let pairs = [];

    function dress(parts) {
      group.textContent = "";
      pairs = parts.map(function (part) {
        const pair = [addPath(group), addPath(group)];
        pair[1].setAttribute("fill", FILLS[part.tone]);
        pair[1].setAttribute("stroke", "none");
        return pair;
      });
    }

    let dressed = null;
    return function show(share) {
      const place = Math.min(Math.max(share, 0), 1) * (frames.length - 1);
      const index = Math.min(Math.floor(place), frames.length - 2);
      const [first, second] = [frames[index], frames[index + 1]];
      const alike = areAlike(first, second);
      const parts = alike || place - index < 0.5 ? first : second;
      if (!dressed || !areAlike(dressed, parts)) {
        dress(parts);
        dressed = parts;
      }
      parts.forEach(function (part, at) {
        const steps = alike ? mix(part.steps, second[at].steps, place - index) : part.steps;
        const text = steps.join(" ");
        pairs[at][0].setAttribute("d", text);
        pairs[at][1].setAttribute("d", text);
      });
    };
  }

  // Returns the phase at a time and how full the breath is then, softly at both ends.
  function findMoment(phases, seconds) {
    const cycle = phases.reduce((sum, phase) => sum + phase, 0);
    let left = seconds % cycle;
    let phase = 0;
    while (left >= phases[phase] && phase < 3) {
      left -= phases[phase];
      phase += 1;
    }
    const soft = (1 - Math.cos((Math.PI * left) / (phases[phase] || 1))) / 2;
    return { phase: phase, share: [soft, 1, 1 - soft, 0][phase] };
  }

  function prepare(box) {
    const moving = box.querySelector(".tl-figure__moving");
    const button = box.querySelector(".tl-figure__button");
    const pair = box.querySelector(".tl-figure__pair");
    const frames = box.querySelector(".tl-figure__frames").textContent;
    const phases = box.dataset.tlPhases.split(" ").map(Number);
    const words = document.createElement("p");
    let show = null;
    let start = 0;
    let isOn = false;

    words.setAttribute("aria-hidden", "true");
    moving.appendChild(words);

    function step(now) {
      if (!isOn) {
        return;
      }
      const moment = findMoment(phases, (now - start) / 1000);
      show(moment.share);
      words.textContent = WORDS[moment.phase];
      window.requestAnimationFrame(step);
    }

    function turn(on) {
      isOn = on;
      moving.hidden = !on;
      pair.hidden = on;
      button.textContent = on ? "Stop moving" : "Show it moving";
      if (on) {
        show = show || makeFigure(moving.querySelector("svg"), frames);
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
    document.querySelectorAll(".tl-figure").forEach(prepare);
  }

  window.tempoleaf = Object.assign(window.tempoleaf || {}, { makeFigure });

  if (document.readyState === "loading") {
    document.addEventListener("DOMContentLoaded", start);
  } else {
    start();
  }
})();
