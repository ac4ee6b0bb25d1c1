// Keeps the site on a reader's device. worker.js says which files, and in which version.
//
// What is kept is shown from the device, so that a page, its look and its links are of one version. A new version is
// fetched beside it and takes over when the reader says so, or when no page of the site is open any more. A device
// without room keeps as much as it can, the page that says so first; the rest comes from the network.

const root = new URL("./", self.location);
const mine = `steadyleaf ${root.pathname} `;
const current = mine + self.site.version;
const AT_ONCE = 6;

/** The address under which a page is kept: a folder is its first page, and a place on a page is the page. */
function keyOf(address) {
  const url = new URL(address);
  if (url.pathname.endsWith("/")) url.pathname += "index.html";
  url.search = "";
  url.hash = "";
  return url.href;
}

const isFull = (error) => error?.name === "QuotaExceededError";

/** The files of this version that are not kept yet, what every page needs first. */
async function missing(cache) {
  const kept = new Set((await cache.keys()).map((request) => request.url));
  const first = (path) => (path === self.site.page || /^(style|fonts|script)\//.test(path) ? 0 : path.endsWith(".html") ? 1 : 2);
  const files = [...self.site.files].sort((a, b) => first(a) - first(b));
  return files.map((path) => new URL(path, root).href).filter((address) => !kept.has(address));
}

/** Keeps what is not kept yet. Answers why it could not be finished: "full", "network", or `null` when all is kept. */
async function fill(cache) {
  const waiting = await missing(cache);
  let why = null;
  const fetchOne = async () => {
    for (let address = waiting.shift(); address && why === null; address = waiting.shift()) {
      try {
        const response = await fetch(address, { cache: "reload" });
        if (!response.ok) why ??= "network";
        else await cache.put(address, response);
      } catch (error) {
        why ??= isFull(error) ? "full" : "network";
      }
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, fetchOne));
  return why;
}

async function install() {
  const cache = await caches.open(current);
  const why = await fill(cache);
  // The browser tries again at a later visit. A device without room is no reason to wait: it keeps what it has.
  if (why === "network") throw new Error("not all files of the site could be fetched");
  if (why === "full") return;
  // What the reader has opened before stays at hand, as it is now.
  for (const name of await caches.keys()) {
    if (!name.startsWith(mine) || name === current) continue;
    for (const request of await (await caches.open(name)).keys()) {
      if (await cache.match(request)) continue;
      try {
        const response = await fetch(request.url, { cache: "reload" });
        if (response.ok) await cache.put(request.url, response);
      } catch (error) {
        // It is fetched when it is asked for.
        if (isFull(error)) return;
      }
    }
  }
}

async function activate() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(mine) && name !== current).map((name) => caches.delete(name)));
  await self.clients.claim();
  // What had no room beside the older version may have it now; nobody waits for it.
  if (await caches.has(current)) caches.open(current).then(fill);
}

/** Videos are too large to keep without being asked. */
function isKept(response) {
  const type = response.headers.get("content-type") ?? "";
  return response.status === 200 && !/^(video|audio)\//.test(type);
}

async function answer(request) {
  const key = keyOf(request.url);
  // A reader may have taken everything off the device while this page was open: then nothing is put back.
  const cache = (await caches.has(current)) ? await caches.open(current) : null;
  const kept = await cache?.match(key);
  if (kept) return kept;
  try {
    const response = await fetch(request);
    if (cache && isKept(response)) await cache.put(key, response.clone()).catch(() => {});
    return response;
  } catch (error) {
    const page = new URL(self.site.page, root);
    if (request.mode !== "navigate" || key === page.href) throw error;
    return Response.redirect(new URL("#page.not-here", page));
  }
}

/** What of this version is kept, after another try to keep the rest, and why not all of it. */
async function state() {
  if (!(await caches.has(current))) return { wanted: self.site.files.length, missing: self.site.files.length, why: null };
  const cache = await caches.open(current);
  const why = await fill(cache);
  return { wanted: self.site.files.length, missing: (await missing(cache)).length, why };
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
  if (event.data === "what is kept") event.waitUntil(state().then((found) => event.ports[0].postMessage(found)));
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  const own = url.origin === root.origin && url.pathname.startsWith(root.pathname);
  // A player asks for parts of a video, which are not kept.
  if (request.method === "GET" && own && !request.headers.has("range")) event.respondWith(answer(request));
});
