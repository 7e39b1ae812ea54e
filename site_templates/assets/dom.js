// Finds what a page is sure to hold; where it doesn't, the error names what is missing.
(function (root) {
  "use strict";

  const HERE = ["localhost", "127.0.0.1", "[::1]"];

  /**
   * @template {Element} [E=HTMLElement]
   * @param {Element | null} found @param {string} selector @param {new () => E} [type]
   */
  function check(found, selector, type) {
    const wanted = /** @type {new () => E} */ (type || HTMLElement);
    if (!(found instanceof wanted)) {
      throw new Error(`the page has no ${wanted.name} ${selector}`);
    }
    return found;
  }

  /** @type {Tempoleaf["makeFinder"]} */
  function makeFinder(within) {
    return (selector, type) => check(within.querySelector(selector), selector, type);
  }

  /** @type {Tempoleaf["findAll"]} */
  function findAll(within, selector, type) {
    return Array.from(within.querySelectorAll(selector), (found) => check(found, selector, type));
  }

  /** @type {Tempoleaf["dataOf"]} */
  function dataOf(element, name) {
    const value = element.dataset[name];
    if (value === undefined) {
      throw new Error(`the page gives no ${name}`);
    }
    return value;
  }

  /** @type {Tempoleaf["isOnWeb"]} */
  function isOnWeb(address) {
    return address.protocol.startsWith("http") && !HERE.includes(address.hostname);
  }

  /** @type {Tempoleaf["wordDate"]} */
  function wordDate(date, options) {
    return date.toLocaleDateString(root.tempoleaf.words.language, options);
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {DomScript} */ ({ dataOf, findAll, isOnWeb, makeFinder, wordDate }),
  );
})(globalThis);
