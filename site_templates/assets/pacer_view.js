// What is seen of the pacer: the lesson's own figure, the tempo strip with its dot, words, number
// and progress.
(function () {
  "use strict";

  const TURNS = 12; // halvings until a spot on a line is found

  /** @param {HTMLDialogElement} dialog @param {any} words of pacer_words.js @param {any} say */
  function makeView(dialog, words, say) {
    const find = (selector) => dialog.querySelector(selector);
    const [left, right] = dialog.dataset.tlEnds.split(" ").map(Number);
    const strips = Array.from(dialog.querySelectorAll("[data-tl-count]"));
    const counts = strips.map((strip) => JSON.parse(strip.dataset.tlCount));
    const calm = window.matchMedia("(prefers-reduced-motion: reduce)");
    const picture = makePicture(find(".tl-pacer__picture"));
    let isPictured = true;

    function makePicture(holder) {
      const box = dialog.parentElement.querySelector(".tl-figure");
      if (!box) {
        return () => undefined;
      }
      const moving = box.querySelector(".tl-figure__moving svg").cloneNode(true);
      const still = box.querySelector(".tl-figure__pair svg").cloneNode(true);
      holder.append(still, moving);
      const frames = box.querySelector(".tl-figure__frames").textContent;
      const show = window.tempoleaf.makeFigure(moving, frames);
      return function (share) {
        still.style.display = calm.matches ? "" : "none";
        moving.style.display = calm.matches ? "none" : "";
        show(share);
      };
    }

    function setText(selector, text) {
      const element = find(selector);
      if (element.textContent !== text) {
        element.textContent = text;
      }
    }

    function drawCue(now) {
      const cue = find(".tl-pacer__cue");
      const cues = { in: cue.dataset.tlIn, out: cue.dataset.tlOut };
      if (now.kind !== "set") {
        setText(".tl-pacer__cue", "");
      } else if (cues[now.step]) {
        setText(".tl-pacer__cue", cues[now.step]);
      }
    }

    function drawSkip(session, now) {
      const skip = find("[data-tl-skip]");
      const isRest = words.isRest(session, now);
      const canSkip = isRest || (session.isOpen && now.kind === "set");
      skip.hidden = !canSkip || session.isPaused;
      skip.textContent = isRest ? say.skip_rest : say.set_done;
    }

    // A dot rides the strip's line; with less motion it steps once a second.
    function drawDot(session, now) {
      const strip = strips.find((each) => !each.hidden);
      if (!strip) {
        return;
      }
      const cycle = session.plan.cycleMs;
      const gone = now.cycleShare * cycle;
      const share = (calm.matches ? Math.floor(gone / 1000) * 1000 : gone) / cycle;
      const line = strip.querySelector("path:last-of-type");
      const at = pointAt(line, left + share * (right - left));
      const dot = strip.querySelector("circle") || addDot(strip.querySelector("svg"));
      dot.setAttribute("cx", String(at.x));
      dot.setAttribute("cy", String(at.y));
      dot.style.display = now.kind === "set" ? "" : "none";
    }

    return {
      find,
      setText,
      calm,
      counts,
      /** Shows one of the parts "before", "run" and "done". @param {string} name */
      showPart(name) {
        for (const part of ["before", "run", "done"]) {
          find(".tl-pacer__" + part).hidden = part !== name;
        }
        dialog.scrollTop = 0;
      },
      /** @param {boolean} isOn */
      showPicture(isOn) {
        isPictured = isOn;
        find(".tl-pacer__picture").hidden = !isOn;
        find(".tl-pacer__strips").hidden = !isOn;
      },
      /** Shows the count that runs, and the one that was asked for. @param {number} wished */
      showCount(session, wished) {
        const now = counts.findIndex((count) => count.join() === session.tempo.join());
        strips.forEach((strip, index) => {
          strip.hidden = index !== now;
        });
        if (find("[data-tl-faster]")) {
          find("[data-tl-faster]").disabled = wished === 0;
          find("[data-tl-slower]").disabled = wished === strips.length - 1;
          const next = wished === now ? "" : `, ${say.then} ${strips[wished].dataset.tlName}`;
          setText(".tl-pacer__count", `${say.count} ${strips[now].dataset.tlName}${next}`);
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
        find(".tl-pacer__bar").value = Math.round(100 * done) / 100;
        if (isPictured) {
          picture(now.fill);
          drawDot(session, now);
        }
      },
    };
  }

  function addDot(svg) {
    const dot = document.createElementNS("http://www.w3.org/2000/svg", "circle");
    dot.setAttribute("r", "1.4");
    dot.setAttribute("class", "tl-pacer__dot");
    svg.append(dot);
    return dot;
  }

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

  window.tempoleaf = Object.assign(window.tempoleaf || {}, { makeView });
})();
