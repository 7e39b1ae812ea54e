// Who is there: people are left out and come back, and others join with lessons of their own.
(function () {
  "use strict";

  const t = window.tempoleaf;
  const { say } = t.words;

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
      }
    }

    function showOthers() {
      t.findAll(document, "[data-tl-other]").forEach((place) => {
        const person = t.dataOf(place, "tlOther");
        place.hidden = !around.state.added.includes(person);
        const lesson = around.state.chosen[`${place.dataset.tlBlock}/${person}`] || "";
        const select = place.querySelector("select");
        if (select) {
          select.value = lesson;
          fill(place, place.hidden ? "" : select.value);
        }
      });
    }

    return {
      show() {
        const { added, out } = around.state;
        t.findAll(document, "[data-tl-here]").forEach((button) => {
          const person = t.dataOf(button, "tlHere");
          const isOther = others.some((other) => other.person === person);
          const isHere = isOther ? added.includes(person) : !out.includes(person);
          button.setAttribute("aria-pressed", String(isHere));
          button.textContent = isHere ? say("Here") : say("Not here");
        });
        t.findAll(document, "[data-tl-person]").forEach((part) => {
          part.classList.toggle("is-out", out.includes(t.dataOf(part, "tlPerson")));
        });
        t.findAll(document, ".tile[data-tl-person]").forEach((tile) => {
          const isOut = out.includes(t.dataOf(tile, "tlPerson"));
          t.findAll(tile, "[data-tl-does]").forEach((part) => {
            part.inert = isOut;
          });
          t.findAll(tile, "[data-tl-away]").forEach((part) => {
            part.hidden = !isOut;
          });
        });
        showOthers();
      },
    };
  }

  window.tempoleaf = Object.assign(
    window.tempoleaf || {},
    /** @satisfies {ClassPeopleScript} */ ({ makePeople }),
  );
})();
