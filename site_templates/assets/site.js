// Keeps the ticks of "ready when" on this device, and shows on lists what is done and what may
// come next. Everything on the pages can be read without this script.
(function () {
  "use strict";

  const t = window.tempoleaf;
  const practice = t.practice;
  const { say } = t.words;

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
    boxes.forEach(function (box) {
      box.addEventListener("change", function () {
        practice.change(function (data) {
          const ticks = new Set(data.ticks[name] || []);
          if (box.checked) {
            ticks.add(t.dataOf(box, "tlTick"));
          } else {
            ticks.delete(t.dataOf(box, "tlTick"));
          }
          data.ticks[name] = [...ticks].sort();
        });
      });
    });
    practice.follow(() => {
      const ticked = practice.read().ticks[name] || [];
      boxes.forEach((box) => {
        box.checked = ticked.includes(t.dataOf(box, "tlTick"));
      });
    });
  }

  // A note is kept with each letter: a phone may close the page before the field is left.
  /** @param {string} name of the lesson */
  function keepNote(name) {
    const field = document.querySelector("[data-tl-note]");
    if (!(field instanceof HTMLTextAreaElement)) {
      return;
    }
    let known = ""; // as this page last read or wrote it
    field.closest("[hidden]")?.removeAttribute("hidden");
    field.addEventListener("input", function () {
      practice.change(function (data) {
        const other = data.notes[name] || "";
        known = other === known ? field.value.trim() : t.joinNotes(other, field.value.trim());
        data.notes[name] = known;
        if (!known) {
          delete data.notes[name];
        }
      });
    });
    practice.follow(() => {
      const now = practice.read().notes[name] || "";
      if (now !== known) {
        known = now;
        field.value = now;
      }
    });
  }

  /** @param {HTMLElement} list */
  function markStops(list) {
    const data = practice.read();
    t.findAll(list, ".tl-mark").forEach((mark) => mark.remove());
    t.findAll(list, "[data-tl-stop]").forEach(function (stop) {
      const isDone = t.isReady(data, t.dataOf(stop, "tlStop"), Number(stop.dataset.tlBoxes));
      const before = (stop.dataset.tlBefore || "").split(" ").filter(Boolean);
      const isNext = before.length > 0 && before.every((each) => {
        const [name = "", boxes = "0"] = each.split(":");
        return t.isReady(data, name, Number(boxes));
      });
      if (isDone || isNext) {
        const mark = document.createElement("span");
        mark.className = "tl-mark";
        mark.textContent = isDone ? say("✓ ready") : say("→ may come next");
        t.makeFinder(stop)("a").after(mark);
      }
    });
  }

  // Wide tables slide in a frame that the theme makes; the keyboard must reach it too.
  function openFrames() {
    t.findAll(document, ".md-typeset__scrollwrap").forEach(function (frame, index) {
      frame.tabIndex = 0;
      frame.setAttribute("role", "region");
      frame.setAttribute("aria-label", say("Table {number}, slides sideways", { number: index + 1 }));
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
    practice.follow(() => t.findAll(document, ".tl-stops-list, .tl-map-list").forEach(markStops));
  }

  if (window.document$) {
    window.document$.subscribe(start);
  } else if (document.readyState === "loading") {
    document.addEventListener("DOMContentLoaded", start);
  } else {
    start();
  }
})();
