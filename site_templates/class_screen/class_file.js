// The rows of a class as a file for the records, shown as text where no file can be saved, and the
// end of all that the device keeps of the class.
(function () {
  "use strict";

  const t = window.tempoleaf;
  const { say, sayMany } = t.words;

  /** @type {Tempoleaf["makeClassFile"]} */
  function makeClassFile(around) {
    const find = t.makeFinder(document);
    const ask = find("[data-tl-erase-ask]");

    // The file is made of no more than the day and the class: its name may be seen by others.
    function save() {
      const rows = around.rows();
      const anchor = document.createElement("a");
      const file = new Blob([t.writeRows(rows)], { type: "text/csv" });
      anchor.href = URL.createObjectURL(file);
      anchor.download = around.screen.file;
      anchor.click();
      window.setTimeout(() => URL.revokeObjectURL(anchor.href), 1000);
      around.change((state) => {
        rows.forEach((row) => {
          state.saved[row.entry] = row.cells.join();
        });
      });
      const told = sayMany("Saved: {count} row.", "Saved: {count} rows.", rows.length);
      const look = say("See that the file is there before you erase anything.");
      around.tell(`${told} ${look}`);
    }

    /** @param {boolean} isOpen */
    function turnAsk(isOpen) {
      ask.hidden = !isOpen;
      find(isOpen ? "[data-tl-erase-not]" : "[data-tl-erase]").focus();
    }

    t.findAll(document, "[data-tl-save]").forEach((button) => button.addEventListener("click", save));
    find("[data-tl-erase]").addEventListener("click", () => turnAsk(true));
    find("[data-tl-erase-not]").addEventListener("click", () => turnAsk(false));
    find("[data-tl-erase-sure]").addEventListener("click", () => {
      around.erase();
      turnAsk(false);
      around.tell(say("Everything of this class is erased from this device."));
    });

    // Of a page that was made before this one, from another plan or another class of its name.
    function showEarlier() {
      const { state, screen } = around;
      const count = t.listNoted(state).filter((key) => !t.isOnPage(screen, key)).length;
      find("[data-tl-earlier]").hidden = count === 0;
      find("[data-tl-earlier-count]").textContent = sayMany(
        "{count} row was noted on an earlier page of this class and fits no block of this one. See whose it is in the rows as text.",
        "{count} rows were noted on an earlier page of this class and fit no block of this one. See whose they are in the rows as text.",
        count,
      );
      find("[data-tl-leave]").setAttribute("aria-pressed", String(state.leavesEarlier));
    }

    find("[data-tl-leave]").addEventListener("click", () => {
      around.change((state) => {
        state.leavesEarlier = !state.leavesEarlier;
      });
    });

    return {
      show(isKept) {
        const rows = around.rows();
        const { fresh, changed } = t.compareRows(around.state, rows);
        const count = sayMany("{count} row so far.", "{count} rows so far.", rows.length);
        const unsaved = fresh
          ? sayMany("{count} is not in a file yet.", "{count} are not in a file yet.", fresh)
          : "";
        const other = changed
          ? sayMany(
              "{count} was saved otherwise: if that file is recorded already, correct the row in the records by hand.",
              "{count} were saved otherwise: if that file is recorded already, correct the rows in the records by hand.",
              changed,
            )
          : "";
        const words = [count, unsaved, other].filter(Boolean).join(" ");
        t.findAll(document, "[data-tl-rows]").forEach((part) => {
          part.textContent = words;
        });
        find("[data-tl-text]", HTMLTextAreaElement).value = t.writeRows(rows);
        find("[data-tl-unkept]").hidden = isKept;
        showEarlier();
      },
    };
  }

  window.tempoleaf = Object.assign(
    window.tempoleaf || {},
    /** @satisfies {ClassFileScript} */ ({ makeClassFile }),
  );
})();
