// Keeps a course readable where there is no signal: its pages at once, sounds and cards on request.
// One edition replaces another only when all of it has arrived.
(function (worker) {
  "use strict";

  /** @type {Edition} */
  const edition = { code: "", pages: {}, kept: {} }; // filled when a site is built
  const AT_ONCE = 8; // files that are asked for at the same time
  const HASH = "x-tempoleaf-hash";
  const scope = worker.registration.scope;
  const ours = `tempoleaf ${scope} `;
  const current = `${ours}edition ${edition.code}`;
  const kept = `${ours}kept`;

  /** @param {string} path */
  function addressOf(path) {
    return new URL(path.replace(/(^|\/)index\.html$/, "$1"), scope).href;
  }

  // A browser takes no answer for a page that was led elsewhere; and the hash is kept beside it.
  /** @param {Response} response @param {string} hash */
  async function seal(response, hash) {
    const headers = new Headers(response.headers);
    headers.set(HASH, hash);
    return new Response(await response.blob(), { headers });
  }

  /** @param {string} path @param {string} hash @param {Cache} cache @param {Cache[]} known */
  async function bring(path, hash, cache, known) {
    const address = addressOf(path);
    for (const old of known) {
      const found = await old.match(address);
      if (found && found.headers.get(HASH) === hash) {
        await cache.put(address, found);
        return;
      }
    }
    const response = await fetch(new Request(address, { cache: "no-cache" }));
    if (!response.ok) {
      throw new Error(`${address} can't be had: ${response.status}`);
    }
    await cache.put(address, await seal(response, hash));
  }

  /** @param {Record<string, string>} files hashes by path @param {Cache} cache @param {Cache[]} known @param {(done: number) => void} [tell] */
  async function bringAll(files, cache, known, tell) {
    const left = Object.entries(files);
    let done = 0;
    const take = async () => {
      for (let next = left.pop(); next; next = left.pop()) {
        await bring(next[0], next[1], cache, known);
        done += 1;
        tell?.(done);
      }
    };
    await Promise.all(Array.from({ length: AT_ONCE }, take));
  }

  async function listOurs() {
    return (await caches.keys()).filter((name) => name.startsWith(`${ours}edition `));
  }

  async function install() {
    const known = await Promise.all((await listOurs()).map((name) => caches.open(name)));
    try {
      await bringAll(edition.pages, await caches.open(current), known);
    } catch (error) {
      await caches.delete(current);
      throw error;
    }
    await worker.skipWaiting();
  }

  // What was kept on request and has changed since is asked for again; until then it is gone, for
  // an old card is worse than none.
  async function refreshKept() {
    const cache = await caches.open(kept);
    for (const group of Object.values(edition.kept)) {
      for (const [path, hash] of Object.entries(group.files)) {
        const found = await cache.match(addressOf(path));
        if (found && found.headers.get(HASH) !== hash) {
          await cache.delete(addressOf(path));
          await bring(path, hash, cache, []).catch(() => undefined);
        }
      }
    }
  }

  async function activate() {
    const old = (await listOurs()).filter((name) => name !== current);
    await Promise.all(old.map((name) => caches.delete(name)));
    await worker.clients.claim();
    await refreshKept();
  }

  /** A player asks for a part of a sound. @param {Request} request @param {Response} whole */
  async function cut(request, whole) {
    const asked = /^bytes=(\d+)-(\d*)$/.exec(request.headers.get("range") || "");
    if (!asked) {
      return whole;
    }
    const blob = await whole.blob();
    const from = Number(asked[1]);
    const to = Math.min(asked[2] ? Number(asked[2]) : Infinity, blob.size - 1);
    if (from > to) {
      return new Response(null, { status: 416, headers: { "content-range": `bytes */${blob.size}` } });
    }
    const headers = new Headers(whole.headers);
    headers.set("content-range", `bytes ${from}-${to}/${blob.size}`);
    headers.set("content-length", String(to + 1 - from));
    return new Response(blob.slice(from, to + 1), { status: 206, headers });
  }

  /** @param {Request} request */
  async function answer(request) {
    const url = new URL(request.url);
    const address = addressOf(url.href.slice(scope.length).split(/[?#]/)[0] || "");
    const cache = await caches.open(current);
    const found = (await cache.match(address)) || (await (await caches.open(kept)).match(address));
    if (found) {
      return cut(request, found);
    }
    if (await cache.match(`${address}/`)) {
      return Response.redirect(`${address}/`);
    }
    try {
      return await fetch(request);
    } catch (error) {
      const page = request.mode === "navigate" && (await cache.match(addressOf("404.html")));
      return page || Response.error();
    }
  }

  /** @param {string} name @param {MessagePort} port */
  async function keep(name, port) {
    const files = edition.kept[name]?.files || {};
    const count = Object.keys(files).length;
    try {
      const cache = await caches.open(kept);
      await bringAll(files, cache, [cache], (done) => port.postMessage({ done, count }));
      port.postMessage({ done: count, count, isWhole: true });
    } catch (error) {
      port.postMessage({ hasFailed: true });
    }
  }

  /** @param {MessagePort} port */
  async function tellGroups(port) {
    const cache = await caches.open(kept);
    const groups = Object.entries(edition.kept).map(async ([name, group]) => {
      const held = await Promise.all(
        Object.entries(group.files).map(async ([path, hash]) => {
          const found = await cache.match(addressOf(path));
          return found?.headers.get(HASH) === hash;
        }),
      );
      return { name, bytes: group.bytes, isWhole: held.every(Boolean) };
    });
    port.postMessage(await Promise.all(groups));
  }

  worker.addEventListener("install", (event) => event.waitUntil(install()));
  worker.addEventListener("activate", (event) => event.waitUntil(activate()));
  worker.addEventListener("fetch", (event) => {
    if (event.request.method === "GET" && event.request.url.startsWith(scope)) {
      event.respondWith(answer(event.request));
    }
  });
  worker.addEventListener("message", (event) => {
    const port = event.ports[0];
    if (!port) {
      return;
    }
    if (event.data === "groups") {
      event.waitUntil(tellGroups(port));
    } else if (typeof event.data === "string" && Object.hasOwn(edition.kept, event.data)) {
      event.waitUntil(keep(event.data, port));
    }
  });
})(/** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self)));
