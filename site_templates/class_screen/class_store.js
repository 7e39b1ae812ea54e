// What a class screen keeps on its device, under one versioned key a class.
(function (root) {
  "use strict";

  /** @type {Tempoleaf["makeClassStore"]} */
  function makeClassStore(storage, key) {
    /** @type {string | null} */
    let memory = null; // what the device would not keep; it lasts until the page is left

    function get() {
      try {
        return memory === null && storage ? storage.getItem(key) : memory;
      } catch (error) {
        return memory; // a private window
      }
    }

    return {
      has: () => get() !== null,
      read: () => root.tempoleaf.readClass(get()),
      write(state) {
        const text = JSON.stringify(state);
        try {
          if (storage) {
            storage.setItem(key, text);
            memory = null;
            return storage.getItem(key) === text;
          }
        } catch (error) {
          // full, or a private window
        }
        memory = text;
        return false;
      },
      erase() {
        memory = null;
        try {
          storage?.removeItem(key);
        } catch (error) {
          // nothing could be kept, so nothing is left
        }
      },
    };
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {ClassStoreScript} */ ({ makeClassStore }),
  );
})(globalThis);
