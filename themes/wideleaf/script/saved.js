// Lets the reader's device keep the site, says when a newer version is there, and on the page about it what is kept.
// Opened from the disk, or in a browser that cannot do it, the pages work as they are.
(() => {
  // The site's folder, where its manifest is.
  const root = new URL("./", document.querySelector("link[rel=manifest]").href);
  const notice = document.getElementById("page.newer");
  const card = document.getElementById("page.kept");
  const WISH = `steadyleaf ${root.pathname} keep`;
  const mine = (name) => name.startsWith(`steadyleaf ${root.pathname} `);
  let asked = false;

  // The reader's wish: "no" once she has taken the pages off the device, until she asks for them again.
  function isWanted() {
    try {
      return localStorage.getItem(WISH) !== "no";
    } catch {
      return true;
    }
  }

  /** Answers whether the wish could be remembered. */
  function wish(keep) {
    try {
      if (keep) localStorage.removeItem(WISH);
      else localStorage.setItem(WISH, "no");
      return true;
    } catch {
      return false;
    }
  }

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
    const follow = (worker) =>
      worker?.addEventListener("statechange", () => {
        if (worker.state === "installed" && navigator.serviceWorker.controller) announce(worker);
        // What could not be installed is redundant.
        if (["activated", "redundant"].includes(worker.state)) tell();
      });
    follow(registration.installing);
    registration.addEventListener("updatefound", () => follow(registration.installing));
    return registration;
  }

  /** Shows one of the sentences on what is kept, its numbers, and what can be done about it. */
  function show(state, numbers, offered = []) {
    const focused = card.contains(document.activeElement) ? document.activeElement : null;
    for (const line of card.querySelectorAll("p[tabindex]")) line.hidden = line.dataset.state !== state;
    const counted = card.querySelector(".numbers");
    counted.hidden = !numbers;
    counted.textContent = counted.dataset.count.replace(/\{(\w+)\}/g, (all, name) => numbers?.[name] ?? all);
    for (const button of card.querySelectorAll("button")) button.hidden = !offered.includes(button.dataset.do);
    // What was pressed or read may be gone: the focus goes to what is said now.
    if (focused?.hidden) focus();
  }

  /** What really lies on the device. */
  async function counts() {
    const paths = new Set();
    for (const name of (await caches.keys()).filter(mine)) {
      for (const request of await (await caches.open(name)).keys()) paths.add(new URL(request.url).pathname);
    }
    const ending = (end) => [...paths].filter((path) => path.endsWith(end)).length;
    return { pages: ending(".html"), sheets: ending(".pdf"), all: paths.size };
  }

  /** Asks the worker to keep what is still missing, and what it could not keep. */
  function ask(worker) {
    return new Promise((done) => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = (event) => done(event.data);
      worker.postMessage("what is kept", [port2]);
      // A worker of an older version does not answer.
      setTimeout(() => done({ missing: 0, why: null }), 60_000);
    });
  }

  async function tell() {
    if (!card) return;
    if (location.protocol === "file:") return show("file");
    if (!("serviceWorker" in navigator) || !("caches" in window)) return show("cannot");
    if (!isWanted()) return show("removed", null, ["keep"]);
    const registration = await navigator.serviceWorker.getRegistration(root);
    const worker = registration?.active;
    if (!worker) {
      if (registration?.installing || registration?.waiting) return show("saving", await counts());
      return show("broken", await counts(), ["again"]);
    }
    const { missing, why } = await ask(worker);
    if (!isWanted()) return;
    const numbers = await counts();
    if (numbers.all === 0 && why !== "full") return show("broken", numbers, ["again"]);
    if (missing === 0) return show("all", numbers, ["remove"]);
    show(why === "full" ? "full" : "some", numbers, ["again", "remove"]);
  }

  function focus() {
    card.querySelector("p[tabindex]:not([hidden])").focus();
  }

  async function begin() {
    try {
      await keep();
      await tell();
    } catch {
      // A private window, or a reader's setting.
      if (card) show("refused", null, ["again"]);
    }
  }

  const press = {
    async remove() {
      const isRemembered = wish(false);
      const registration = await navigator.serviceWorker.getRegistration(root);
      await registration?.unregister();
      await Promise.all((await caches.keys()).filter(mine).map((name) => caches.delete(name)));
      if (isRemembered) await tell();
      else show("forgetful", null, ["keep"]);
    },
    async keep() {
      wish(true);
      show("saving");
      await begin();
    },
    async again() {
      show("saving");
      await begin();
    },
  };

  if (card) {
    for (const button of card.querySelectorAll("button")) {
      button.addEventListener("click", async () => {
        await press[button.dataset.do]();
        focus();
      });
    }
  }
  if (location.protocol === "file:" || !("serviceWorker" in navigator)) {
    tell();
  } else {
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      if (asked) location.reload();
    });
    if (card) show("looking");
    // The page first, the rest when it stands.
    window.addEventListener("load", () => (isWanted() ? begin() : tell()));
  }
})();
