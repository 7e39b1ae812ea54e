// What is seen of the pacer: the lesson's own figure, the tempo strip with its dot, words, number
// and progress.
(function () {
  "use strict";

  const TURNS = 12; // halvings until a spot on a line is found

  /** @type {Tempoleaf["makeView"]} */
  function makeView(dialog, words, say) {
    const t = window.tempoleaf;
    const { fill } = t.words;
    const find = t.makeFinder(dialog);
    const [left = 0, right = 0] = t.dataOf(dialog, "tlEnds").split(" ").map(Number);
    const strips = t.findAll(dialog, "[data-tl-count]");
    const names = strips.map((strip) => t.dataOf(strip, "tlName"));
    /** @type {number[][]} */
    const counts = strips.map((strip) => JSON.parse(t.dataOf(strip, "tlCount")));
    const calm = window.matchMedia("(prefers-reduced-motion: reduce)");
    const picture = makePicture(find(".tl-pacer__picture"));
    let isPictured = true;

    /** @param {HTMLElement} holder @returns {ShowFigure} */
    function makePicture(holder) {
      const box = dialog.parentElement?.querySelector(".tl-figure");
      if (!box) {
        return () => undefined;
      }
      const findIn = t.makeFinder(box);
      const moving = document.importNode(findIn(".tl-figure__moving svg", SVGSVGElement), true);
      const still = document.importNode(findIn(".tl-figure__pair svg", SVGSVGElement), true);
      holder.append(still, moving);
      const show = t.makeFigure(moving, findIn(".tl-figure__frames").textContent);
      return function (share) {
        still.style.display = calm.matches ? "" : "none";
        moving.style.display = calm.matches ? "none" : "";
        show(share);
      };
    }

    // What was written is remembered, not read back: a browser that translates the page changes it.
    /** @type {Map<string, string>} */
    const written = new Map();

    /** @type {PacerView["setText"]} */
    function setText(selector, text) {
      if (written.get(selector) !== text) {
        written.set(selector, text);
        find(selector).textContent = text;
      }
    }

    /** @param {Place} now */
    function drawCue(now) {
      const { tlIn, tlOut } = find(".tl-pacer__cue").dataset;
      const cue = now.step === "in" ? tlIn : now.step === "out" ? tlOut : "";
      if (now.kind !== "set") {
        setText(".tl-pacer__cue", "");
      } else if (cue) {
        setText(".tl-pacer__cue", cue);
      }
    }

    /** @param {Session} session @param {Place} now */
    function drawSkip(session, now) {
      const skip = find("[data-tl-skip]");
      const isRest = words.isRest(session, now);
      const canSkip = isRest || (session.isOpen && now.kind === "set");
      const isShown = canSkip && !session.isPaused;
      if (!isShown && document.activeElement === skip) {
        find("[data-tl-pause]").focus({ preventScroll: true });
      }
      skip.hidden = !isShown;
      setText("[data-tl-skip]", isRest ? say.skip_rest : say.set_done);
    }

    // A dot rides the strip's line; with less motion it steps once a second.
    /** @param {Session} session @param {Place} now */
    function drawDot(session, now) {
      const strip = strips.find((each) => !each.hidden);
      if (!strip) {
        return;
      }
      const cycle = session.plan.cycleMs;
      const gone = now.cycleShare * cycle;
      const share = (calm.matches ? Math.floor(gone / 1000) * 1000 : gone) / cycle;
      const findIn = t.makeFinder(strip);
      const line = findIn("path:last-of-type", SVGPathElement);
      const at = pointAt(line, left + share * (right - left));
      const dot = strip.querySelector("circle") || addDot(findIn("svg", SVGSVGElement));
      dot.setAttribute("cx", String(at.x));
      dot.setAttribute("cy", String(at.y));
      dot.style.display = now.kind === "set" ? "" : "none";
    }

    return {
      setText,
      calm,
      counts,
      showPart(name) {
        const isNew = find(".tl-pacer__" + name).hidden;
        for (const part of ["before", "run", "done"]) {
          find(".tl-pacer__" + part).hidden = part !== name;
        }
        if (isNew) {
          dialog.scrollTop = 0;
        }
      },
      showPicture(isOn) {
        isPictured = isOn;
        find(".tl-pacer__picture").hidden = !isOn;
        find(".tl-pacer__strips").hidden = !isOn;
      },
      showCount(session, wished) {
        const now = counts.findIndex((count) => count.join() === session.tempo.join());
        strips.forEach((strip, index) => {
          strip.hidden = index !== now;
        });
        if (dialog.querySelector("[data-tl-faster]")) {
          find("[data-tl-faster]", HTMLButtonElement).disabled = wished === 0;
          find("[data-tl-slower]", HTMLButtonElement).disabled = wished === strips.length - 1;
          const tempos = { tempo: names[now] || "", next: names[wished] || "" };
          setText(".tl-pacer__count", fill(wished === now ? say.count : say.count_then, tempos));
        }
      },
      draw(session, now) {
        setText(".tl-pacer__word", words.wordFor(session, now));
        setText(".tl-pacer__number", words.numberFor(session, now));
        setText(".tl-pacer__where", words.whereWords(session, now));
        drawCue(now);
        drawSkip(session, now);
        const breaths = (now.breath - 1 + now.cycleShare) / session.plan.breaths;
        const done = now.breath ? breaths : now.share;
        find(".tl-pacer__bar", HTMLProgressElement).value = Math.round(100 * done) / 100;
        if (isPictured) {
          picture(now.fill);
          drawDot(session, now);
        }
      },
    };
  }

  /** @param {SVGSVGElement} svg */
  function addDot(svg) {
    const dot = document.createElementNS("http://www.w3.org/2000/svg", "circle");
    dot.setAttribute("r", "1.4");
    dot.setAttribute("class", "tl-pacer__dot");
    svg.append(dot);
    return dot;
  }

  /** @param {SVGPathElement} line @param {number} x */
  function pointAt(line, x) {
    let low = 0;
    let high = line.getTotalLength();
    for (let turn = 0; turn < TURNS; turn += 1) {
      const middle = (low + high) / 2;
      if (line.getPointAtLength(middle).x < x) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return line.getPointAtLength(low);
  }

  window.tempoleaf = Object.assign(
    window.tempoleaf || {},
    /** @satisfies {PacerViewScript} */ ({ makeView }),
  );
})();
