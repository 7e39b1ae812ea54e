// The scripts' own words in the language of the site: looked up by their English, which is said
// where nothing else is known. Pure; words_here.js, made with the site, hands the words over.
(function (root) {
  "use strict";

  const ENGLISH = { language: "en-GB", texts: {} };
  const GAP = /\{(\w+)\}/;
  const MOST_DIGITS = 3;
  // Gettext orders the forms of a number as Unicode does, in the languages we know.
  /** @type {Intl.LDMLPluralRule[]} */
  const FORMS = ["zero", "one", "two", "few", "many", "other"];

  /** @type {Tempoleaf["speakIn"]} */
  function speakIn({ language, texts }) {
    const known = new Map(Object.entries(texts));
    const rules = new Intl.PluralRules(language);
    const used = rules.resolvedOptions().pluralCategories;
    const forms = FORMS.filter((form) => used.includes(form));

    /** @type {Words["number"]} */
    function number(value, digits) {
      return value.toLocaleString(language, {
        minimumFractionDigits: digits,
        maximumFractionDigits: digits ?? MOST_DIGITS,
        useGrouping: false,
      });
    }

    /** @param {string} text @param {Record<string, Value | Node>} values */
    function listParts(text, values) {
      return text.split(GAP).map((part, index) => {
        const isGap = index % 2 === 1;
        const value = isGap && Object.hasOwn(values, part) ? values[part] : undefined;
        if (value === undefined) {
          return isGap ? `{${part}}` : part;
        }
        return typeof value === "number" ? number(value) : value;
      });
    }

    /** @type {Words["fill"]} */
    function fill(text, values) {
      return listParts(text, values).join("");
    }

    /** @param {string} text */
    function lookUp(text) {
      const said = known.get(text);
      return (typeof said === "string" && said) || text;
    }

    /** @type {Words["say"]} */
    function say(text, ...given) {
      return fill(lookUp(text), given[0] || {});
    }

    /** @type {Words["sayMany"]} */
    function sayMany(one, many, count, ...given) {
      const said = known.get(one);
      // Where a language has fewer forms, its last one is for all the rest.
      const at = (/** @type {string[]} */ list) =>
        list[Math.min(forms.indexOf(rules.select(count)), list.length - 1)];
      const text = (Array.isArray(said) && at(said)) || (count === 1 ? one : many);
      return fill(text, { ...given[0], count });
    }

    /** @type {Words["sayParts"]} */
    function sayParts(text, values) {
      return listParts(lookUp(text), values).filter((part) => part !== "");
    }

    /** @type {Words["join"]} */
    function join(list) {
      if (list.length < 2) {
        return list.join("");
      }
      return say("{before} and {last}", { before: list.slice(0, -1).join(", "), last: list.at(-1) || "" });
    }

    return { language, say, sayMany, sayParts, fill, number, join };
  }

  root.tempoleaf = Object.assign(root.tempoleaf || {}, /** @satisfies {WordsScript} */ ({ speakIn }));
  root.tempoleaf.words = speakIn(root.tempoleaf.wordsHere || ENGLISH);
})(globalThis);
