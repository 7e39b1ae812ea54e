// "Take it along" on the page "My practice": as a file, and as codes that another phone scans.
(function () {
  "use strict";

  const MOST_BYTES = 2000000;
  const QUIET = 4; // light cells around a code; ISO/IEC 18004, 6.3.8
  const { join, say, sayMany } = window.tempoleaf.words;
  const UNKEPT = say("This device won't keep it: it is full, or this is a private window.");

  /** What a person is told that data holds. @param {Practice} data */
  function describe(data) {
    const [rows, ticks, notes] = [data.log, Object.keys(data.ticks), Object.keys(data.notes)];
    const parts = [
      rows.length ? sayMany("{count} practice", "{count} practices", rows.length) : "",
      ticks.length ? sayMany("ticks of {count} lesson", "ticks of {count} lessons", ticks.length) : "",
      notes.length ? sayMany("{count} note", "{count} notes", notes.length) : "",
    ];
    return join(parts.filter(Boolean));
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
      tell(say("Saved. The file holds your notes too, so keep it where only you look."));
    }

    /** @param {Practice} data */
    function add(data) {
      const before = practice.read().log.length;
      const isKept = practice.add(follow(data));
      show();
      const rows = practice.read().log.length - before;
      const added = sayMany(
        "Added: {count} practice, and what there was of ticks and notes.",
        "Added: {count} practices, and what there was of ticks and notes.",
        rows,
      );
      return isKept ? added : `${added} ${UNKEPT}`;
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
      tell(isOurs ? add(t.clean(found)) : say("This is no file of My practice. Nothing was changed."));
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
      const place = { number: at + 1, count: addresses.length };
      const svg = onPage(".tl-code__picture", SVGSVGElement);
      svg.setAttribute("viewBox", `0 0 ${size} ${size}`);
      svg.setAttribute("aria-label", say("QR code. Code {number} of {count}", place));
      onPage(".tl-code__picture path", SVGPathElement).setAttribute("d", outline(cells));
      find("code-where").textContent = say(
        "Code {number} of {count}. Point the other phone's camera at it and open the address.",
        place,
      );
      find("code-before").hidden = at === 0;
      find("code-next").hidden = at === addresses.length - 1;
    }

    function showCodes() {
      const data = practice.read();
      const made = t.listHandOvers(data, window.location.href.split(/[?#]/)[0] || "", notes.checked);
      addresses = made.addresses;
      at = 0;
      const lessons = [...new Set(made.left)].map(titleOf).join(", ");
      const nothing = addresses.length ? "" : say("There is nothing to hand over yet.");
      tell(lessons ? say("Too long for a code, so use the file: {lessons}.", { lessons }) : nothing);
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
      const place = { number: found.part, count: found.parts };
      after =
        found.parts > 1
          ? say("This was code {number} of {count}: scan the others too, in any order.", place)
          : "";
      find("offered").textContent = say("What you scanned holds {what}.", { what: describe(offered) });
      find("offer").hidden = false;
      onPage("[data-tl-offer] h2").focus();
    }

    /** @param {boolean} isWanted */
    function decide(isWanted) {
      const added = offered && isWanted ? [add(offered), after].filter(Boolean).join(" ") : "";
      const told = added || say("Left out. Nothing was changed.");
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
