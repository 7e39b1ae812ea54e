// Presses that nobody meant: the second half of a double click, and a key that is held down. They
// must not press what has come under the finger meanwhile.
(function () {
  "use strict";

  const ECHO_MS = 500;
  const ECHO_PIXELS = 8;

  /** @type {Tempoleaf["stopEchoes"]} */
  function stopEchoes(within, quick) {
    /** @type {{time: number, x: number, y: number, button: Element | null}} */
    let last = { time: -Infinity, x: 0, y: 0, button: null };

    /** @param {MouseEvent} event @param {Element} button */
    function isEcho(event, button) {
      if (event.timeStamp - last.time >= ECHO_MS || button.matches(quick)) {
        return false;
      }
      if (event.detail === 0) {
        return last.button !== button; // by key, or by what reads the screen
      }
      return Math.hypot(event.clientX - last.x, event.clientY - last.y) < ECHO_PIXELS;
    }

    within.addEventListener(
      "click",
      (event) => {
        const button = event.target instanceof Element && event.target.closest("button, a");
        if (!button) {
          return;
        }
        if (isEcho(event, button)) {
          event.preventDefault();
          event.stopPropagation();
        } else {
          last = { time: event.timeStamp, x: event.clientX, y: event.clientY, button };
        }
      },
      true,
    );
    within.addEventListener("keydown", (event) => {
      if (event.repeat && event.key === "Enter") {
        event.preventDefault();
      }
    });
  }

  window.tempoleaf = Object.assign(
    window.tempoleaf || {},
    /** @satisfies {EchoesScript} */ ({ stopEchoes }),
  );
})();
