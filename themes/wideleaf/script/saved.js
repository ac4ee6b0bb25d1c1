// Lets the reader's device keep the site, says when a newer version is there, and on the page about it what is kept.
// Opened from the disk, or in a browser that cannot do it, the pages work as they are.

// The site's folder, where its manifest is.
const root = new URL("./", document.querySelector("link[rel=manifest]").href);
const notice = document.getElementById("page.newer");
const state = document.getElementById("page.kept");
let asked = false;

/** Shows that a newer version waits. */
function announce(worker) {
  notice.querySelector("[hidden]").hidden = false;
  notice.querySelector("button").addEventListener("click", () => {
    asked = true;
    worker.postMessage("take over");
  });
}

async function keep() {
  const registration = await navigator.serviceWorker.register(new URL("worker.js", root));
  if (registration.waiting && navigator.serviceWorker.controller) announce(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const worker = registration.installing;
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" && navigator.serviceWorker.controller) announce(worker);
      if (worker.state === "activated") tell();
    });
  });
}

/** On the page about it: whether anything is kept, and a way to take it off the device. */
async function tell() {
  if (!state) return;
  const names = (await caches.keys()).filter((name) => name.startsWith(`steadyleaf ${root.pathname} `));
  state.querySelector(".yes").hidden = names.length === 0;
  state.querySelector(".no").hidden = names.length > 0;
}

async function remove() {
  const registration = await navigator.serviceWorker.getRegistration(root);
  if (registration) await registration.unregister();
  const names = (await caches.keys()).filter((name) => name.startsWith(`steadyleaf ${root.pathname} `));
  await Promise.all(names.map((name) => caches.delete(name)));
  await tell();
}

if ("serviceWorker" in navigator && location.protocol !== "file:") {
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (asked) location.reload();
  });
  if (state) state.querySelector("button").addEventListener("click", remove);
  // The page first, the rest when it stands.
  window.addEventListener("load", () => keep().then(tell, () => {}));
}
