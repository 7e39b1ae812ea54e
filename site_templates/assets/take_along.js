// "Take it along" on the page "My practice": as a file, and as codes that another phone scans.
(function () {
  "use strict";

  const MOST_BYTES = 2000000;
  const QUIET = 4; // light cells around a code; ISO/IEC 18004, 6.3.8
  const UNKEPT = " This device won't keep it: it is full, or this is a private window.";

  /** @param {number} count @param {string} one @param {string} more */
  function word(count, one, more) {
    return `${count} ${count === 1 ? one : more}`;
  }

  /** What a person is told that data holds. @param {Practice} data */
  function describe(data) {
    const parts = [
      data.log.length && word(data.log.length, "practice", "practices"),
      Object.keys(data.ticks).length && `ticks of ${word(Object.keys(data.ticks).length, "lesson", "lessons")}`,
      Object.keys(data.notes).length && word(Object.keys(data.notes).length, "note", "notes"),
    ].filter(Boolean);
    return parts.length > 1 ? `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}` : parts[0] || "";
  }

  /** Dark cells as the outline of a drawing. @param {boolean[][]} cells */
  function outline(cells) {
    return cells
      .flatMap((line, row) =>
        line.map((isDark, column) => (isDark ? `M${column + QUIET} ${row + QUIET}h1v1h-1z` : "")),
      )
      .join("");
  }

  /** @type {Tempoleaf["makeTakeAlong"]} */
  function makeTakeAlong({ follow, practice, show, tell, titleOf }) {
    const t = window.tempoleaf;
    const onPage = t.makeFinder(document);
    const find = (/** @type {string} */ name) => onPage(`[data-tl-${name}]`);

    /* As a file */

    function save() {
      const text = JSON.stringify(practice.read(), null, 1);
      const anchor = document.createElement("a");
      anchor.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
      anchor.download = `my-practice-${t.dayOf(new Date())}.json`;
      anchor.click();
      URL.revokeObjectURL(anchor.href);
      tell("Saved. The file holds your notes too, so keep it where only you look.");
    }

    /** @param {Practice} data */
    function add(data) {
      const before = practice.read().log.length;
      const isKept = practice.add(follow(data));
      show();
      const rows = practice.read().log.length - before;
      return `Added: ${word(rows, "practice", "practices")}, and what there was of ticks and notes.${isKept ? "" : UNKEPT}`;
    }

    /** @param {File} file */
    async function open(file) {
      let found = null;
      if (file.size <= MOST_BYTES) {
        try {
          found = JSON.parse(await file.text());
        } catch (error) {
          found = null; // no file of ours
        }
      }
      const isOurs = found && found.version === 1 && Array.isArray(found.log);
      tell(isOurs ? add(t.clean(found)) : "This is no file of My practice. Nothing was changed.");
    }

    /* As codes */

    const codes = find("codes");
    const notes = onPage("[data-tl-with-notes]", HTMLInputElement);
    /** @type {string[]} */
    let addresses = [];
    let at = 0;

    function showCode() {
      const cells = t.makeQr(addresses[at] || "");
      const size = cells.length + 2 * QUIET;
      const where = `Code ${at + 1} of ${addresses.length}`;
      const svg = onPage(".tl-code__picture", SVGSVGElement);
      svg.setAttribute("viewBox", `0 0 ${size} ${size}`);
      svg.setAttribute("aria-label", `QR code. ${where}`);
      onPage(".tl-code__picture path", SVGPathElement).setAttribute("d", outline(cells));
      find("code-where").textContent = `${where}. Point the other phone's camera at it and open the address.`;
      find("code-before").hidden = at === 0;
      find("code-next").hidden = at === addresses.length - 1;
    }

    function showCodes() {
      const data = practice.read();
      const made = t.listHandOvers(data, window.location.href.split(/[?#]/)[0] || "", notes.checked);
      addresses = made.addresses;
      at = 0;
      const left = [...new Set(made.left)].map(titleOf).join(", ");
      const nothing = addresses.length ? "" : "There is nothing to hand over yet.";
      tell(left ? `Too long for a code, so use the file: ${left}.` : nothing);
      codes.hidden = addresses.length === 0;
      if (!codes.hidden) {
        showCode();
        find("code-where").focus();
      }
    }

    // A code must not outlast what it says.
    function close() {
      codes.hidden = true;
      addresses = [];
    }

    /** @param {number} by */
    function step(by) {
      at += by;
      showCode();
      find("code-where").focus();
    }

    /* From codes: asked first, because anybody can write an address */

    /** @type {Practice | null} */
    let offered = null;
    let after = "";

    function offer() {
      const found = t.readHandOver(window.location.hash);
      if (!found || !describe(found.data)) {
        return;
      }
      offered = offered ? t.merge(offered, found.data) : found.data;
      after =
        found.parts > 1
          ? ` This was code ${found.part} of ${found.parts}: scan the others too, in any order.`
          : "";
      find("offered").textContent = `What you scanned holds ${describe(offered)}.`;
      find("offer").hidden = false;
      onPage("[data-tl-offer] h2").focus();
    }

    /** @param {boolean} isWanted */
    function decide(isWanted) {
      const told = offered && isWanted ? add(offered) + after : "Left out. Nothing was changed.";
      offered = null;
      find("offer").hidden = true;
      // Out of the address, so that a reload or the way back doesn't ask again.
      window.history.replaceState(null, "", window.location.pathname);
      tell(told);
      find("told").focus();
    }

    /** @type {Record<string, () => void>} */
    const clicks = {
      save,
      "show-codes": showCodes,
      "code-before": () => step(-1),
      "code-next": () => step(1),
      "code-done": () => {
        close();
        find("show-codes").focus();
      },
      "offer-take": () => decide(true),
      "offer-leave": () => decide(false),
    };
    Object.entries(clicks).forEach(([name, act]) => find(name).addEventListener("click", act));
    const input = onPage("[data-tl-file]", HTMLInputElement);
    input.addEventListener("change", async () => {
      const file = input.files?.[0];
      if (file) {
        await open(file);
        input.value = "";
      }
    });
    notes.addEventListener("change", () => codes.hidden || showCodes());
    const isOnWeb = t.isOnWeb(window.location);
    find("by-codes").hidden = !isOnWeb;
    find("no-codes").hidden = isOnWeb;
    window.addEventListener("hashchange", offer);
    offer();
    return { close };
  }

  window.tempoleaf = Object.assign(
    window.tempoleaf || {},
    /** @satisfies {TakeAlongScript} */ ({ makeTakeAlong }),
  );
})();
