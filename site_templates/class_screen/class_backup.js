// A second copy of what a class screen keeps. A browser may write its simple storage to the disk
// seconds later, and loses it if it is killed before; a database that is asked to be strict writes
// at once.
(function (root) {
  "use strict";

  const NAME = "tempoleaf.class.1";
  const TABLE = "kept";

  /** @returns {Promise<IDBDatabase | null>} */
  function open() {
    return new Promise((done) => {
      try {
        const asked = root.indexedDB.open(NAME, 1);
        asked.onupgradeneeded = () => asked.result.createObjectStore(TABLE);
        asked.onsuccess = () => done(asked.result);
        asked.onerror = () => done(null);
        asked.onblocked = () => done(null);
      } catch (error) {
        done(null); // switched off
      }
    });
  }

  /** @type {Tempoleaf["makeBackup"]} */
  function makeBackup(key) {
    const opened = open();

    /** @param {(table: IDBObjectStore) => void} act */
    async function change(act) {
      try {
        const database = await opened;
        const options = /** @type {IDBTransactionOptions} */ ({ durability: "strict" });
        const work = database?.transaction(TABLE, "readwrite", options);
        if (work) {
          work.onabort = () => undefined; // full: the other copy tells whether it is kept
          act(work.objectStore(TABLE));
        }
      } catch (error) {
        // the database was taken away; the other copy stands
      }
    }

    return {
      async read() {
        const database = await opened;
        return new Promise((done) => {
          try {
            const asked = database?.transaction(TABLE).objectStore(TABLE).get(key);
            if (!asked) {
              done(null);
              return;
            }
            asked.onsuccess = () => done(typeof asked.result === "string" ? asked.result : null);
            asked.onerror = () => done(null);
          } catch (error) {
            done(null);
          }
        });
      },
      write: (state) => change((table) => table.put(JSON.stringify(state), key)),
      erase: () => change((table) => table.delete(key)),
    };
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {ClassBackupScript} */ ({ makeBackup }),
  );
})(globalThis);
