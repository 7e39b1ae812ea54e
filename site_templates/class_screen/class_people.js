// Who is there: people are left out and come back, and others join with lessons of their own.
(function () {
  "use strict";

  const t = window.tempoleaf;
  const { say, sayMany } = t.words;

  /** @type {Tempoleaf["makePeople"]} */
  function makePeople(around) {
    const { others } = around.screen;

    /** @param {string[]} list @param {string} name */
    function toggle(list, name) {
      const at = list.indexOf(name);
      if (at < 0) {
        list.push(name);
      } else {
        list.splice(at, 1);
      }
    }

    document.addEventListener("click", (event) => {
      const button = event.target instanceof Element && event.target.closest("[data-tl-here]");
      if (button instanceof HTMLElement) {
        const person = t.dataOf(button, "tlHere");
        const isOther = others.some((other) => other.person === person);
        around.change((state) => toggle(isOther ? state.added : state.out, person));
      }
    });
    document.addEventListener("change", (event) => {
      const select = event.target;
      if (select instanceof HTMLSelectElement && select.dataset.tlChoose !== undefined) {
        const place = t.dataOf(select, "tlChoose");
        around.change((state) => {
          state.chosen[place] = select.value;
        });
      }
    });

    /** @param {HTMLElement} place @param {string} lesson */
    function fill(place, lesson) {
      const holder = t.makeFinder(place)("[data-tl-joined]");
      if (holder.dataset.tlJoined === lesson) {
        return;
      }
      holder.dataset.tlJoined = lesson;
      const kept = document.querySelector(`template[data-tl-version="${place.dataset.tlOther}/${lesson}"]`);
      holder.replaceChildren();
      if (kept instanceof HTMLTemplateElement) {
        holder.append(document.importNode(kept.content, true));
        t.findAll(holder, "[data-tl-turn]").forEach((turn) => {
          turn.dataset.tlBlock = place.dataset.tlBlock;
        });
        around.fold(holder);
      }
    }

    /** @param {(person: string, block?: string) => number} countNoted */
    function showOthers(countNoted) {
      t.findAll(document, "[data-tl-joins]").forEach((part) => {
        part.hidden = !around.state.added.includes(t.dataOf(part, "tlJoins"));
      });
      t.findAll(document, "[data-tl-other]").forEach((tile) => {
        const person = t.dataOf(tile, "tlOther");
        const block = t.dataOf(tile, "tlBlock");
        const isHere = around.state.added.includes(person);
        const isNoted = countNoted(person, block) > 0;
        tile.hidden = !isHere && !isNoted;
        const select = tile.querySelector("select");
        if (select) {
          select.value = around.state.chosen[`${block}/${person}`] || "";
          fill(tile, tile.hidden ? "" : select.value);
        }
        showAway(tile, isHere, isNoted);
      });
    }

    /** Gives what counts the rows of a person, in one block or in all. */
    function makeCount() {
      const rows = around.rows();
      return (/** @type {string} */ person, /** @type {string} */ block = "") =>
        rows.filter((row) => row.person === person && (!block || row.block === block)).length;
    }

    // Whoever has left keeps what they did, and it can still be taken back.
    /** @param {HTMLElement} tile @param {boolean} isHere @param {boolean} isNoted */
    function showAway(tile, isHere, isNoted) {
      const isFolded = !isHere && !isNoted;
      tile.classList.toggle("is-out", !isHere);
      tile.classList.toggle("is-folded", isFolded);
      t.findAll(tile, "[data-tl-does]").forEach((part) => {
        part.inert = isFolded;
      });
      t.findAll(tile, "[data-tl-away]").forEach((part) => {
        part.hidden = isHere;
        part.textContent = isFolded
          ? say("Not here")
          : say("Not here any more: what is noted here stays in the file. Tap it again to take it back.");
      });
    }

    /** @param {(person: string, block?: string) => number} countNoted */
    function showPlanned(countNoted) {
      const { out } = around.state;
      t.findAll(document, "[data-tl-person]").forEach((part) => {
        part.classList.toggle("is-out", out.includes(t.dataOf(part, "tlPerson")));
      });
      t.findAll(document, ".tile[data-tl-person]").forEach((tile) => {
        const person = t.dataOf(tile, "tlPerson");
        showAway(tile, !out.includes(person), countNoted(person, t.dataOf(tile, "tlBlock")) > 0);
      });
    }

    return {
      show() {
        const { added, out } = around.state;
        const countNoted = makeCount();
        t.findAll(document, "[data-tl-here]").forEach((button) => {
          const person = t.dataOf(button, "tlHere");
          const isOther = others.some((other) => other.person === person);
          const isHere = isOther ? added.includes(person) : !out.includes(person);
          button.setAttribute("aria-pressed", String(isHere));
          button.textContent = isHere ? say("Here") : say("Not here");
        });
        t.findAll(document, "[data-tl-noted]").forEach((part) => {
          const count = countNoted(t.dataOf(part, "tlNoted"));
          part.textContent = count ? sayMany("{count} row noted", "{count} rows noted", count) : "";
        });
        showPlanned(countNoted);
        showOthers(countNoted);
      },
    };
  }

  window.tempoleaf = Object.assign(
    window.tempoleaf || {},
    /** @satisfies {ClassPeopleScript} */ ({ makePeople }),
  );
})();
