// Tells whoever comes from a printed card whether it still says what the lesson says.
(function (root) {
  "use strict";

  /** @type {Tempoleaf["judgeCard"]} */
  function judgeCard(versions, code) {
    for (const { now, releases } of versions) {
      if (code === now) {
        return { kind: "current", changes: [] };
      }
      const at = releases.findLastIndex((release) => release.code === code);
      if (at >= 0) {
        const changes = releases.slice(at + 1);
        return { kind: changes.length ? "old" : "changed", changes };
      }
    }
    return { kind: "unknown", changes: [] };
  }

  /** @param {string} day */
  function wordDay(day) {
    /** @type {Intl.DateTimeFormatOptions} */
    const options = { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" };
    return root.tempoleaf.wordDate(new Date(day + "T00:00:00Z"), options);
  }

  function start() {
    const { hash } = root.location;
    const box = root.document.querySelector("[data-tl-age]");
    const code = /^#card=([0-9A-Za-z]{1,12})$/.exec(hash)?.[1];
    if (!(box instanceof HTMLElement) || !code) {
      return;
    }
    const find = root.tempoleaf.makeFinder(box);
    /** @type {CardVersions[]} */
    const versions = JSON.parse(find("script").textContent);
    const age = judgeCard(versions, code.toUpperCase());
    root.tempoleaf.findAll(box, "[data-tl-age-is]").forEach((words) => {
      words.hidden = words.dataset.tlAgeIs !== age.kind;
    });
    root.tempoleaf.findAll(box, "[data-tl-age-code]").forEach((words) => {
      words.textContent = code.toUpperCase();
    });
    find("[data-tl-age-on]").textContent = age.changes[0] ? wordDay(age.changes[0].on) : "";
    find("ul").replaceChildren(
      ...age.changes.map((change) => {
        const item = root.document.createElement("li");
        const values = { day: wordDay(change.on), reason: change.why };
        item.textContent = root.tempoleaf.words.say("{day}: {reason}", values);
        return item;
      }),
    );
    find("ul").hidden = age.changes.length === 0;
    box.classList.toggle("tl-age--old", age.kind !== "current");
    box.hidden = false;
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {CardAgeScript} */ ({ judgeCard }),
  );
  if (root.document) {
    root.addEventListener("hashchange", start);
    if (root.document.readyState === "loading") {
      root.document.addEventListener("DOMContentLoaded", start);
    } else {
      start();
    }
  }
})(globalThis);
