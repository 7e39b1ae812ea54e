// The page "My practice": shows what this device keeps, and erases it.
(function () {
  "use strict";

  const DAYS = 28;
  const ROWS = 60;
  const { say, sayMany, sayParts } = window.tempoleaf.words;
  /** @type {Record<Outcome, string>} */
  const OUTCOMES = { ready: say("ready"), again: say("again"), easier: say("easier") };

  /** @param {string} on */
  function dateWords(on) {
    const [year = 0, month = 1, day = 1] = on.split("-").map(Number);
    const date = new Date(year, month - 1, day);
    return window.tempoleaf.wordDate(date, { weekday: "short", day: "numeric", month: "long" });
  }

  function lastDays() {
    const days = [];
    const day = new Date();
    for (let index = 0; index < DAYS; index += 1) {
      days.push(window.tempoleaf.dayOf(day));
      day.setDate(day.getDate() - 1);
    }
    return days;
  }

  /** @param {string} tag @param {(string | Node)[]} parts */
  function item(tag, ...parts) {
    const element = document.createElement(tag);
    element.append(...parts);
    return element;
  }

  /** @param {HTMLElement} page */
  function open(page) {
    const t = window.tempoleaf;
    const practice = t.practice;
    const onPage = t.makeFinder(document);
    const find = (/** @type {string} */ name) => onPage(`[data-tl-${name}]`);
    /** @type {ListedLesson[]} */
    const lessons = JSON.parse(find("lessons").textContent || "[]");
    const byId = new Map(lessons.map((lesson) => [lesson.id, lesson]));
    const now = Object.fromEntries(
      lessons.flatMap((lesson) => lesson.was.map((old) => [old, lesson.id])),
    );

    /** @param {string} id */
    function titleOf(id) {
      return byId.get(id)?.title || id;
    }

    /** @param {string} id */
    function link(id) {
      const lesson = byId.get(id);
      if (!lesson) {
        return item("span", id);
      }
      const anchor = document.createElement("a");
      anchor.textContent = lesson.title;
      anchor.href = lesson.href;
      return anchor;
    }

    /** @param {string} name @param {Node[]} parts */
    function fill(name, parts) {
      find(name).replaceChildren(...parts);
      onPage(`[data-tl-none="${name}"]`).hidden = parts.length > 0;
    }

    /** @param {Practice["log"][number]} row */
    function removeRow(row) {
      practice.change((data) => {
        const at = data.log.findLastIndex(
          (other) => JSON.stringify(other) === JSON.stringify(row),
        );
        data.log.splice(at, at < 0 ? 0 : 1);
      });
      show();
      find("days").focus();
      tell(say("One practice is taken out."));
    }

    /** @param {Practice["log"][number]} row */
    function logRow(row) {
      const day = dateWords(row.on);
      const button = document.createElement("button");
      button.textContent = say("Take out");
      button.type = "button";
      button.className = "tl-mine__out";
      button.setAttribute("aria-label", say("Take out {lesson}, {day}", { lesson: titleOf(row.lesson), day }));
      button.addEventListener("click", () => removeRow(row));
      const values = { day, lesson: link(row.lesson), outcome: OUTCOMES[row.outcome] };
      return item("li", ...sayParts("{day}: {lesson}, {outcome}", values), " ", button);
    }

    function show() {
      const data = practice.read();
      fill(
        "next",
        t.listNext(data, lessons).map((id) => item("li", link(id))),
      );
      const days = t.countDays(data, lastDays());
      find("days").textContent = sayMany(
        "Practice on {count} day of the last {days}. Days of rest belong to it.",
        "Practice on {count} days of the last {days}. Days of rest belong to it.",
        days,
        { days: DAYS },
      );
      const rows = [...data.log].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
      fill("log", rows.slice(-ROWS).reverse().map(logRow));
      find("each").hidden = rows.length === 0;
      const notes = Object.entries(data.notes).filter((pair) => pair[1]);
      fill(
        "notes",
        notes.flatMap(([id, note]) => [item("dt", link(id)), item("dd", note)]),
      );
    }

    /** @param {string} words */
    function tell(words) {
      find("told").textContent = words;
    }

    const follow = (/** @type {Practice} */ data) => t.rename(data, now);
    const along = t.makeTakeAlong({ follow, practice, show, tell, titleOf });

    function refresh() {
      along.close();
      show();
    }

    find("erase").addEventListener("click", () => {
      find("erase-ask").hidden = false;
    });
    find("erase-not").addEventListener("click", () => {
      find("erase-ask").hidden = true;
      find("erase").focus();
    });
    find("erase-sure").addEventListener("click", () => {
      practice.erase();
      find("erase-ask").hidden = true;
      refresh();
      find("erase").focus();
      tell(say("Everything is erased from this device."));
    });
    if (Object.keys(now).length > 0) {
      practice.change(follow);
    }
    page.hidden = false;
    find("scriptless").hidden = true;
    practice.follow(refresh);
  }

  function start() {
    const page = document.querySelector("[data-tl-mine]");
    if (page instanceof HTMLElement && !page.dataset.tlReady) {
      page.dataset.tlReady = "yes";
      open(page);
    }
  }

  if (document.readyState === "loading") {
    document.addEventListener("DOMContentLoaded", start);
  } else {
    start();
  }
})();
