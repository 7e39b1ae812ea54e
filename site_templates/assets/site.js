// Keeps the ticks of "ready when" on this device, and shows on lists what is done and what may
// come next. Everything on the pages can be read without this script.
(function () {
  "use strict";

  const t = window.tempoleaf;
  const practice = t.practice;

  // Lessons that got another id name the former ones.
  function followNames() {
    /** @type {Record<string, string>} */
    const now = {};
    t.findAll(document, "[data-tl-was]").forEach(function (element) {
      const id = element.dataset.tlLesson || t.dataOf(element, "tlStop");
      t.dataOf(element, "tlWas").split(" ").forEach((old) => {
        now[old] = id;
      });
    });
    if (Object.keys(now).length > 0) {
      practice.change((data) => t.rename(data, now));
    }
  }

  /** @param {string} name of the lesson */
  function fillBoxes(name) {
    const boxes = t.findAll(document, "[data-tl-tick]", HTMLInputElement);
    const ticked = practice.read().ticks[name];
    boxes.forEach(function (box) {
      box.checked = Array.isArray(ticked) && ticked.includes(t.dataOf(box, "tlTick"));
      box.addEventListener("change", function () {
        practice.change(function (data) {
          data.ticks[name] = boxes
            .filter((other) => other.checked)
            .map((other) => t.dataOf(other, "tlTick"));
        });
      });
    });
  }

  /** @param {string} name of the lesson */
  function keepNote(name) {
    const field = document.querySelector("[data-tl-note]");
    if (field instanceof HTMLTextAreaElement) {
      field.closest("[hidden]")?.removeAttribute("hidden");
      field.value = practice.read().notes[name] || "";
      window.addEventListener("storage", function (event) {
        if (event.key === practice.key && document.activeElement !== field) {
          field.value = practice.read().notes[name] || "";
        }
      });
      field.addEventListener("change", function () {
        practice.change(function (data) {
          data.notes[name] = field.value.trim();
          if (!data.notes[name]) {
            delete data.notes[name];
          }
        });
      });
    }
  }

  /** @param {HTMLElement[]} stops */
  function markStops(stops) {
    const data = practice.read();
    const done = new Set();
    stops.forEach(function (stop) {
      if (t.isReady(data, t.dataOf(stop, "tlStop"), Number(stop.dataset.tlBoxes))) {
        done.add(stop.dataset.tlStop);
      }
    });
    if (done.size === 0) {
      return;
    }
    const onPage = new Set(stops.map((stop) => stop.dataset.tlStop));
    stops.forEach(function (stop) {
      const before = (stop.dataset.tlBuildsOn || "").split(" ").filter((name) => onPage.has(name));
      const isNext = before.length > 0 && before.every((name) => done.has(name));
      const isDoneHere = done.has(stop.dataset.tlStop);
      if (isDoneHere || isNext) {
        const mark = document.createElement("span");
        mark.className = "tl-mark";
        mark.textContent = isDoneHere ? "✓ ready" : "→ may come next";
        t.makeFinder(stop)("a").after(mark);
      }
    });
  }

  // Wide tables slide in a frame that the theme makes; the keyboard must reach it too.
  function openFrames() {
    t.findAll(document, ".md-typeset__scrollwrap").forEach(function (frame, index) {
      frame.tabIndex = 0;
      frame.setAttribute("role", "region");
      frame.setAttribute("aria-label", "Table " + (index + 1) + ", slides sideways");
    });
  }

  function start() {
    openFrames();
    followNames();
    const lesson = document.querySelector("[data-tl-lesson]");
    if (lesson instanceof HTMLElement) {
      const name = t.dataOf(lesson, "tlLesson");
      fillBoxes(name);
      keepNote(name);
    }
    const lists = document.querySelectorAll(".tl-stops-list, .tl-map-list");
    lists.forEach((list) => {
      if (!list.querySelector(".tl-mark")) {
        markStops(t.findAll(list, "[data-tl-stop]"));
      }
    });
  }

  if (window.document$) {
    window.document$.subscribe(start);
  } else if (document.readyState === "loading") {
    document.addEventListener("DOMContentLoaded", start);
  } else {
    start();
  }
})();
