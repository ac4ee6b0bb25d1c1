// Keeps the site on a reader's device. worker.js says which files, and in which version.
//
// What is kept is shown from the device, so that a page, its look and its links are of one version. A new version is
// fetched beside it and takes over when the reader says so, or when no page of the site is open any more.

const root = new URL("./", self.location);
const mine = `steadyleaf ${root.pathname} `;
const current = mine + self.site.version;

/** The address under which a page is kept: a folder is its first page, and a place on a page is the page. */
function keyOf(address) {
  const url = new URL(address);
  if (url.pathname.endsWith("/")) url.pathname += "index.html";
  url.search = "";
  url.hash = "";
  return url.href;
}

async function install() {
  const cache = await caches.open(current);
  const files = self.site.files.map((path) => new Request(new URL(path, root), { cache: "reload" }));
  await cache.addAll(files);
  // What the reader has opened before stays at hand, as it is now.
  for (const name of await caches.keys()) {
    if (!name.startsWith(mine) || name === current) continue;
    for (const request of await (await caches.open(name)).keys()) {
      if (await cache.match(request)) continue;
      try {
        const response = await fetch(request.url, { cache: "reload" });
        if (response.ok) await cache.put(request.url, response);
      } catch {
        // It is fetched when it is asked for.
      }
    }
  }
}

async function activate() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(mine) && name !== current).map((name) => caches.delete(name)));
  await self.clients.claim();
}

/** Videos are too large to keep without being asked. */
function isKept(response) {
  const type = response.headers.get("content-type") ?? "";
  return response.status === 200 && !/^(video|audio)\//.test(type);
}

async function answer(request) {
  const cache = await caches.open(current);
  const key = keyOf(request.url);
  const kept = await cache.match(key);
  if (kept) return kept;
  try {
    const response = await fetch(request);
    if (isKept(response)) await cache.put(key, response.clone()).catch(() => {});
    return response;
  } catch (error) {
    if (request.mode !== "navigate") throw error;
    return Response.redirect(new URL(`${self.site.page}#page.not-here`, root));
  }
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  const own = url.origin === root.origin && url.pathname.startsWith(root.pathname);
  // A player asks for parts of a video, which are not kept.
  if (request.method === "GET" && own && !request.headers.has("range")) event.respondWith(answer(request));
});
