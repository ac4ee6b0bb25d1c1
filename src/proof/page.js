// Brings an open page up to date in its place: only what differs is changed, so that the reader's place, the focus
// and everything that was opened stay. Shows what the review found in a panel at the foot of the page.

(() => {
  const { mark, ...own } = document.currentScript.dataset;
  const page = own.page.split("/").map(encodeURIComponent).join("/");
  // What a reader or the page's own scripts change: it stays as they left it.
  const THEIRS = new Set(["open", "hidden", "value", "checked"]);
  const parser = new DOMParser();

  const aside = document.createElement("aside");
  aside.className = "proof-panel";
  aside.lang = "en";
  aside.setAttribute("aria-label", "Review");
  aside.innerHTML =
    '<p class="proof-lost" role="status" hidden>The preview has stopped: this page no longer follows what you save.</p>' +
    "<details></details>";
  const [lost, panel] = aside.children;
  panel.open = sessionStorage.getItem("proof.panel") === "open";
  document.body.append(aside);

  // --- Following

  let seen = { page: mark };
  let latest = null;
  let work = Promise.resolve();
  let stream = null;

  function follow() {
    stream = new EventSource(`/-/changes/${page}`);
    stream.onopen = () => {
      // Another run of the preview counts anew.
      if (!lost.hidden) seen = { page: seen.page };
      lost.hidden = true;
    };
    stream.onerror = () => (lost.hidden = false);
    stream.onmessage = (event) => {
      latest = JSON.parse(event.data);
      work = work.then(update).catch(() => {});
    };
  }

  function stop() {
    stream?.close();
    stream = null;
  }

  // A browser keeps few connections to one server: a window that nobody sees gives its own back.
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) stop();
    else if (stream === null) follow();
  });
  addEventListener("pagehide", stop);
  addEventListener("pageshow", () => stream ?? follow());

  async function update() {
    const now = latest;
    if (seen.scripts !== undefined && now.scripts !== seen.scripts) return location.reload();
    if (now.page !== null && now.page !== seen.page) await renewPage();
    if (seen.looks !== undefined && now.looks !== seen.looks) renewLooks(now.looks);
    // No page waits for the review.
    if (now.review !== seen.review) renewPanel().catch(() => {});
    seen = { ...now, page: seen.page };
  }

  // --- The page

  async function renewPage() {
    const answer = await fetch(location.pathname, { cache: "no-store" });
    const next = parser.parseFromString(await answer.text(), "text/html");
    const own = next.querySelector("script[data-proof]");
    if (own === null) return;
    if (loads(next) !== loads(document)) return location.reload();
    const focused = document.activeElement;
    const back = keepPlace();
    document.title = next.title;
    renewAttributes(document.documentElement, next.documentElement);
    renewChildren(document.body, next.body);
    if (focused !== null && focused !== document.body && !focused.isConnected) {
      const same = focused.id && document.getElementById(focused.id);
      (same || document.querySelector("main"))?.focus({ preventScroll: true });
    }
    back();
    seen.page = own.dataset.mark;
    document.dispatchEvent(new Event("proof:renewed"));
  }

  // The style sheets of a page, and what its scripts say.
  function loads(doc) {
    const sheets = doc.head.querySelectorAll("link[rel=stylesheet]:not([data-proof])");
    const scripts = doc.querySelectorAll("script:not([data-proof], [type='application/ld+json'])");
    const said = Array.from(scripts, (script) => script.textContent);
    return [...Array.from(sheets, (sheet) => sheet.getAttribute("href").split("?")[0]), ...said].join("\n");
  }

  // What the reader looks at stays where it is in the window, whatever comes or goes above it.
  function keepPlace() {
    const anchor = document.elementFromPoint(innerWidth / 2, innerHeight / 3);
    const before = anchor?.getBoundingClientRect().top;
    return () => {
      if (!anchor?.isConnected || scrollY === 0) return;
      scrollBy({ top: anchor.getBoundingClientRect().top - before, behavior: "instant" });
    };
  }

  function renewLooks(version) {
    for (const link of document.head.querySelectorAll("link[rel=stylesheet]:not([data-proof])")) {
      const next = link.cloneNode();
      next.href = `${link.getAttribute("href").split("?")[0]}?${version}`;
      // The old sheet goes when the new one is there, or the page would flash bare.
      next.onload = next.onerror = () => link.remove();
      link.after(next);
    }
    for (const image of document.querySelectorAll("img[src]")) {
      image.removeAttribute("srcset");
      image.src = `${image.getAttribute("src").split("?")[0]}?${version}`;
    }
  }

  // --- What differs

  function renew(old, next) {
    if (old.nodeType === Node.ELEMENT_NODE) {
      renewAttributes(old, next);
      renewChildren(old, next);
    } else if (old.nodeValue !== next.nodeValue) {
      old.nodeValue = next.nodeValue;
    }
  }

  function renewAttributes(old, next) {
    for (const { name, value } of next.attributes) {
      if (!THEIRS.has(name) && old.getAttribute(name) !== value) old.setAttribute(name, value);
    }
    for (const { name } of Array.from(old.attributes)) {
      if (!THEIRS.has(name) && !next.hasAttribute(name)) old.removeAttribute(name);
    }
  }

  function renewChildren(old, next) {
    const olds = Array.from(old.childNodes).filter((node) => node !== aside);
    const nexts = Array.from(next.childNodes);
    // What is the same from either end stays: in between is what was written, added or taken away.
    while (olds.length > 0 && nexts.length > 0 && same(olds[0], nexts[0])) renew(olds.shift(), nexts.shift());
    let end = aside.parentNode === old ? aside : null;
    while (olds.length > 0 && nexts.length > 0 && same(olds.at(-1), nexts.at(-1))) {
      end = olds.pop();
      renew(end, nexts.pop());
    }
    for (const node of nexts) {
      const before = olds.shift();
      if (before === undefined) old.insertBefore(document.importNode(node, true), end);
      else if (before.nodeName === node.nodeName && idOf(before) === idOf(node)) renew(before, node);
      else before.replaceWith(document.importNode(node, true));
    }
    for (const node of olds) node.remove();
  }

  const idOf = (node) => node.id ?? "";

  function same(old, next) {
    if (old.nodeName !== next.nodeName || idOf(old) !== idOf(next)) return false;
    return idOf(old) !== "" || old.isEqualNode(next);
  }

  // --- The panel

  let asked = 0;

  async function renewPanel() {
    const turn = ++asked;
    const answer = await fetch(`/-/panel/${page}`, { cache: "no-store" });
    if (!answer.ok) return;
    const next = parser.parseFromString(`<details>${await answer.text()}</details>`, "text/html");
    // Of two answers the later one stays.
    if (turn !== asked) return;
    renewChildren(panel, next.querySelector("details"));
    for (const finding of panel.querySelectorAll("details[open]")) showLines(finding);
  }

  async function showLines(finding) {
    const answer = await fetch(finding.dataset.excerpt, { cache: "no-store" });
    if (answer.ok) finding.querySelector(".proof-excerpt").innerHTML = await answer.text();
  }

  panel.addEventListener(
    "toggle",
    ({ target }) => {
      if (target === panel) sessionStorage.setItem("proof.panel", panel.open ? "open" : "");
      else if (target.open) showLines(target);
    },
    true,
  );

  if (!document.hidden) follow();
})();
