// The theme opens its menu, its search and the sections of its menu by labels: no keyboard reaches
// most of them, and none tells whether it is open. Buttons take their place, under the same names
// for the theme's styles. Without scripts the labels stay, and a pointer can use them.
(function () {
  "use strict";

  const t = window.tempoleaf;
  const LABELS =
    "label.md-header__button[for=__drawer], label.md-header__button[for=__search]," +
    ".md-nav--primary .md-nav__link[for], .md-nav--primary .md-nav .md-nav__title[for]";
  const NAMED = { __drawer: ".md-nav--primary", __search: ".md-search" };

  // What has no words of its own is named by what it opens, or by the link beside it.
  /** @param {HTMLLabelElement} label */
  function nameOf(label) {
    const own = Object.entries(NAMED).find(([id]) => id === label.htmlFor);
    const named = own && document.querySelector(own[1])?.getAttribute("aria-label");
    return named || label.previousElementSibling?.textContent.trim() || label.htmlFor;
  }

  /** @param {HTMLLabelElement} label @param {HTMLInputElement} control */
  function makeButton(label, control) {
    const button = document.createElement("button");
    const tell = () => button.setAttribute("aria-expanded", String(control.checked));
    button.type = "button";
    button.className = label.className;
    button.setAttribute("for", label.htmlFor);
    if (label.id) {
      button.id = label.id;
    }
    if (!label.textContent.trim()) {
      button.setAttribute("aria-label", nameOf(label));
    }
    button.append(...label.childNodes);
    button.addEventListener("click", () => control.click());
    control.addEventListener("change", tell);
    tell();
    label.replaceWith(button);
    return button;
  }

  /** @param {HTMLInputElement} control */
  function whatIsOpenedBy(control) {
    const named = Object.entries(NAMED).find(([id]) => id === control.id);
    return named ? document.querySelector(named[1]) : control.parentElement?.querySelector("nav");
  }

  // What opens takes the focus along, at once, for only then do phones show their letters; what
  // shuts gives it back, once the theme has let go of it.
  /** @param {HTMLInputElement} control @param {HTMLElement[]} buttons */
  function keepFocus(control, buttons) {
    const { activeElement: active } = document;
    const isBack = (/** @type {HTMLElement} */ each) => each.matches(".md-nav__title");
    const next = () => buttons.find((each) => isBack(each) === control.checked && each.checkVisibility());
    if (!control.checked) {
      const isLost = active === document.body || whatIsOpenedBy(control)?.contains(active);
      (isLost ? next() : undefined)?.focus();
    } else if (buttons.some((each) => each === active)) {
      const field = control.id === "__search" ? document.querySelector(".md-search__input") : null;
      (field instanceof HTMLElement ? field : next())?.focus();
    }
  }

  // Where a button opens the search, its field can't be seen until then; the theme's own key for it
  // still leads there.
  /** @param {HTMLInputElement} control @param {HTMLElement[]} buttons */
  function passFieldBy(control, buttons) {
    const field = document.querySelector(".md-search__input");
    const pass = () => {
      const isUnseen = !control.checked && buttons.some((each) => each.checkVisibility());
      if (field instanceof HTMLElement) {
        field.tabIndex = isUnseen ? -1 : 0;
      }
    };
    control.addEventListener("change", pass);
    window.addEventListener("resize", pass);
    pass();
  }

  function start() {
    /** @type {Map<HTMLInputElement, HTMLElement[]>} */
    const controls = new Map();
    t.findAll(document, LABELS, HTMLLabelElement).forEach((label) => {
      const { control } = label;
      if (control instanceof HTMLInputElement) {
        controls.set(control, [...(controls.get(control) || []), makeButton(label, control)]);
      }
    });
    controls.forEach((buttons, control) => {
      const keep = () => keepFocus(control, buttons);
      if (control.id === "__search") {
        passFieldBy(control, buttons);
      }
      control.addEventListener("change", () => (control.checked ? keep() : window.setTimeout(keep, 0)));
    });
    document.addEventListener("keydown", (event) => {
      const drawer = document.getElementById("__drawer");
      if (event.key === "Escape" && drawer instanceof HTMLInputElement && drawer.checked) {
        drawer.click();
      }
    });
  }

  if (document.readyState === "loading") {
    document.addEventListener("DOMContentLoaded", start);
  } else {
    start();
  }
})();
