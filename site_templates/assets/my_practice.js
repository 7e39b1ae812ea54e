// The page "My practice": shows what this device keeps, and hands it over or erases it.
(function () {
  "use strict";

  const DAYS = 28;
  const ROWS = 60;
  const MOST_BYTES = 2000000;
  const OUTCOMES = { ready: "ready", again: "again", easier: "easier" };

  function start() {
    const page = document.querySelector("[data-tl-mine]");
    if (!page || page.dataset.tlReady) {
      return;
    }
    const t = window.tempoleaf;
    const practice = t.practice;
    const find = (name) => document.querySelector(`[data-tl-${name}]`);
    const lessons = JSON.parse(find("lessons").textContent);
    const byId = new Map(lessons.map((lesson) => [lesson.id, lesson]));
    const now = Object.fromEntries(
      lessons.flatMap((lesson) => lesson.was.map((old) => [old, lesson.id])),
    );

    function link(id) {
      const lesson = byId.get(id);
      const anchor = document.createElement(lesson ? "a" : "span");
      anchor.textContent = lesson ? lesson.title : id;
      if (lesson) {
        anchor.href = lesson.href;
      }
      return anchor;
    }

    function fill(name, parts) {
      find(name).replaceChildren(...parts);
      document.querySelector(`[data-tl-none="${name}"]`).hidden = parts.length > 0;
    }

    function item(tag, ...parts) {
      const element = document.createElement(tag);
      element.append(...parts);
      return element;
    }

    function lastDays() {
      const days = [];
      const day = new Date();
      for (let index = 0; index < DAYS; index += 1) {
        days.push(t.dayOf(day));
        day.setDate(day.getDate() - 1);
      }
      return days;
    }

    function dateWords(on) {
      const [year, month, day] = on.split("-").map(Number);
      const options = { weekday: "short", day: "numeric", month: "long" };
      const language = document.documentElement.lang || undefined;
      return new Date(year, month - 1, day).toLocaleDateString(language, options);
    }

    function removeRow(row) {
      practice.change((data) => {
        const at = data.log.findLastIndex(
          (other) => JSON.stringify(other) === JSON.stringify(row),
        );
        data.log.splice(at, at < 0 ? 0 : 1);
      });
      show();
      find("days").focus();
      tell("One practice is taken out.");
    }

    function logRow(row) {
      const button = item("button", "Take out");
      button.type = "button";
      button.className = "tl-mine__out";
      button.setAttribute("aria-label", `Take out ${dateWords(row.on)}`);
      button.addEventListener("click", () => removeRow(row));
      return item("li", `${dateWords(row.on)}: `, link(row.lesson), `, ${OUTCOMES[row.outcome]} `, button);
    }

    function show() {
      const data = practice.read();
      const next = t.listNext(data, lessons);
      fill("next", next.map((id) => item("li", link(id))));
      const days = t.countDays(data, lastDays());
      const dayWord = days === 1 ? "day" : "days";
      find("days").textContent = `Practice on ${days} ${dayWord} of the last ${DAYS}. Days of rest belong to it.`;
      const rows = [...data.log].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
      fill("log", rows.slice(-ROWS).reverse().map(logRow));
      const notes = Object.entries(data.notes).filter((pair) => pair[1]);
      fill("notes", notes.flatMap(([id, note]) => [item("dt", link(id)), item("dd", note)]));
    }

    function save() {
      const text = JSON.stringify(practice.read(), null, 1);
      const anchor = document.createElement("a");
      anchor.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
      anchor.download = `my-practice-${t.dayOf(new Date())}.json`;
      anchor.click();
      URL.revokeObjectURL(anchor.href);
      tell("Saved. The file holds your notes too, so keep it where only you look.");
    }

    async function open(file) {
      let found = null;
      if (file.size <= MOST_BYTES) {
        try {
          found = JSON.parse(await file.text());
        } catch (error) {
          found = null; // no file of ours
        }
      }
      if (!found || found.version !== 1 || !Array.isArray(found.log)) {
        tell("This is no file of My practice. Nothing was changed.");
        return;
      }
      const before = practice.read().log.length;
      const kept = practice.add(t.rename(t.clean(found), now));
      show();
      const rows = practice.read().log.length - before;
      tell(
        `Added: ${rows} ${rows === 1 ? "practice" : "practices"}, and its ticks and notes.` +
          (kept ? "" : " This device won't keep it: it is full, or this is a private window."),
      );
    }

    function tell(words) {
      find("told").textContent = words;
    }

    find("save").addEventListener("click", save);
    find("file").addEventListener("change", (event) => {
      const input = event.target;
      if (input.files[0]) {
        open(input.files[0]).then(() => {
          input.value = "";
        });
      }
    });
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
      show();
      find("erase").focus();
      tell("Everything is erased from this device.");
    });
    window.addEventListener("storage", (event) => event.key === practice.key && show());
    if (Object.keys(now).length > 0) {
      practice.change((data) => t.rename(data, now));
    }
    page.dataset.tlReady = "yes";
    page.hidden = false;
    document.querySelector("[data-tl-scriptless]").hidden = true;
    show();
  }

  if (document.readyState === "loading") {
    document.addEventListener("DOMContentLoaded", start);
  } else {
    start();
  }
})();
