// Keeps the ticks of "ready when" on this device, and shows on lists what is done and what may
// come next. Everything on the pages can be read without this script.
(function () {
  "use strict";

  const practice = window.tempoleaf.practice;

  // Lessons that got another id name the former ones.
  function followNames() {
    const now = {};
    document.querySelectorAll("[data-tl-was]").forEach(function (element) {
      const id = element.dataset.tlLesson || element.dataset.tlStop;
      element.dataset.tlWas.split(" ").forEach((old) => {
        now[old] = id;
      });
    });
    if (Object.keys(now).length > 0) {
      practice.change((data) => window.tempoleaf.rename(data, now));
    }
  }

  function fillBoxes(lesson) {
    const name = lesson.dataset.tlLesson;
    const boxes = document.querySelectorAll("[data-tl-tick]");
    const ticked = practice.read().ticks[name];
    boxes.forEach(function (box) {
      box.checked = Array.isArray(ticked) && ticked.includes(box.dataset.tlTick);
      box.addEventListener("change", function () {
        practice.change(function (data) {
          data.ticks[name] = Array.from(boxes)
            .filter((other) => other.checked)
            .map((other) => other.dataset.tlTick);
        });
      });
    });
  }

  function keepNote(lesson) {
    const field = document.querySelector("[data-tl-note]");
    const name = lesson.dataset.tlLesson;
    if (field) {
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

  function markStops(stops) {
    const data = practice.read();
    const done = new Set();
    stops.forEach(function (stop) {
      if (window.tempoleaf.isReady(data, stop.dataset.tlStop, Number(stop.dataset.tlBoxes))) {
        done.add(stop.dataset.tlStop);
      }
    });
    if (done.size === 0) {
      return;
    }
    const onPage = new Set(Array.from(stops, (stop) => stop.dataset.tlStop));
    stops.forEach(function (stop) {
      const before = (stop.dataset.tlBuildsOn || "").split(" ").filter((name) => onPage.has(name));
      const isNext = before.length > 0 && before.every((name) => done.has(name));
      const isDoneHere = done.has(stop.dataset.tlStop);
      if (isDoneHere || isNext) {
        const mark = document.createElement("span");
        mark.className = "tl-mark";
        mark.textContent = isDoneHere ? "✓ ready" : "→ may come next";
        stop.querySelector("a").after(mark);
      }
    });
  }

  // Wide tables slide in a frame that the theme makes; the keyboard must reach it too.
  function openFrames() {
    document.querySelectorAll(".md-typeset__scrollwrap").forEach(function (frame, index) {
      frame.tabIndex = 0;
      frame.setAttribute("role", "region");
      frame.setAttribute("aria-label", "Table " + (index + 1) + ", slides sideways");
    });
  }

  function start() {
    openFrames();
    followNames();
    const lesson = document.querySelector("[data-tl-lesson]");
    if (lesson) {
      fillBoxes(lesson);
      keepNote(lesson);
    }
    const lists = document.querySelectorAll(".tl-stops-list, .tl-map-list");
    lists.forEach((list) => {
      if (!list.querySelector(".tl-mark")) {
        markStops(list.querySelectorAll("[data-tl-stop]"));
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
