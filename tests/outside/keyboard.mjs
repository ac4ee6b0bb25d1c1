// Every control by keyboard: Tab reaches it in reading order, it is in view and not covered, its focus shows,
// and it is large enough for an unsteady hand.

import { eachPage, launch, settled } from "./browser.mjs";
import { Defects, lookedAt, serve, siteFolder } from "./site.mjs";

const LOOKS = [
  { name: "320 px", viewport: { width: 320, height: 640 }, colorScheme: "light" },
  { name: "1280 px, dark", viewport: { width: 1280, height: 800 }, colorScheme: "dark" },
];

const folder = siteFolder();
const defects = new Defects("keyboard");
const site = await serve(folder);
const browser = await launch();
let reached = 0;

for (const look of LOOKS) {
  const { viewport, colorScheme } = look;
  await eachPage(browser, lookedAt(folder), { viewport, colorScheme, reducedMotion: "reduce" }, async (page, path) => {
    const where = `${path} at ${look.name}`;
    await page.goto(site.address + path);
    await settled(page);
    await page.evaluate(install);
    const expected = await page.evaluate(() => window.controls.map((control) => window.nameOf(control)));
    const order = [];
    for (let press = 0; press <= expected.length; press += 1) {
      await page.keyboard.press("Tab");
      const stop = await page.evaluate(() => window.lookAtFocus());
      // Past the last control the focus leaves the page, or begins anew.
      if (stop === null || (order.length > 0 && stop.place === order[0])) break;
      for (const what of stop.faults) defects.add(where, `${stop.name} ${what}`);
      order.push(stop.place);
      reached += 1;
      if (stop.choices > 1) await choose(page, where, stop);
    }
    expected.forEach((name, place) => {
      if (!order.includes(place)) defects.add(where, `${name} is not reached by Tab`);
    });
    if (order.some((place, at) => place < 0 || (at > 0 && place <= order[at - 1]))) {
      defects.add(where, "Tab does not follow the order of the page");
    }
  });
}

await browser.close();
await site.close();
defects.finish(reached, "stops of the keyboard");

/** A group of round buttons is one stop; the arrows lead through it. Ends on the choice it began with. */
async function choose(page, where, stop) {
  const seen = new Set();
  for (let press = 0; press < stop.choices; press += 1) {
    await page.keyboard.press("ArrowDown");
    const next = await page.evaluate(() => ({ ...window.lookAtFocus(), value: document.activeElement.value }));
    for (const what of next.faults) defects.add(where, `${next.name}=${next.value} ${what}`);
    seen.add(next.value);
    reached += 1;
  }
  if (seen.size !== stop.choices) defects.add(where, `${stop.name}: the arrows reach ${seen.size} of ${stop.choices}`);
}

/** Runs in the page: finds its controls and says how to look at the one that has the focus. */
function install() {
  const TARGET = 44; // WCAG 2.2, 2.5.5, in CSS px
  const native = "a[href], button, input, select, textarea, summary, iframe, audio[controls], video[controls]";
  const sameGroup = (a, b) => a.type === "radio" && b.type === "radio" && a.name === b.name && a.form === b.form;

  window.nameOf = (e) => {
    const words = (e.textContent || e.value || e.name || "").trim().replace(/\s+/g, " ").slice(0, 40);
    return `${e.tagName.toLowerCase()}${e.id ? `#${e.id}` : ""} "${words || e.name}"`;
  };

  // One entry for each stop; of a group of round buttons the chosen one, else the first.
  window.controls = [];
  for (const element of document.querySelectorAll(`${native}, [tabindex]`)) {
    if (element.disabled || !element.checkVisibility({ visibilityProperty: true })) continue;
    // A place that only scripts or links lead to is no control; a control out of the order of Tab is a fault.
    if (element.tabIndex < 0 && !element.matches(native)) continue;
    const at = window.controls.findIndex((other) => sameGroup(other, element));
    if (at < 0) window.controls.push(element);
    else if (element.checked) window.controls[at] = element;
  }

  // What a finger can press: a control with its label.
  const target = (element) => {
    const rects = [element, ...(element.labels ?? [])]
      .filter((e) => e === element || e.contains(element))
      .map((e) => e.getBoundingClientRect());
    const width = Math.max(...rects.map((r) => r.width));
    const height = Math.max(...rects.map((r) => r.height));
    return { width, height };
  };

  // A link in a sentence takes the size of its line, as 2.5.5 allows.
  const inSentence = (link) => {
    if (link.tagName !== "A" || getComputedStyle(link).display !== "inline") return false;
    let block = link.parentElement;
    while (getComputedStyle(block).display.startsWith("inline")) block = block.parentElement;
    const words = document.createTreeWalker(block, NodeFilter.SHOW_TEXT);
    while (words.nextNode()) {
      const outside = words.currentNode.parentElement.closest("a, .spoken") === null;
      if (outside && /\p{L}{2}/u.test(words.currentNode.data)) return true;
    }
    return false;
  };

  const channel = (v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);
  const luminance = ([r, g, b]) => 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
  const colour = (text) => text.match(/[\d.]+/g).map(Number);
  const behind = (element) => {
    for (let e = element; e; e = e.parentElement) {
      const [r, g, b, a = 1] = colour(getComputedStyle(e).backgroundColor);
      if (a > 0) return [r, g, b];
    }
    return [255, 255, 255];
  };
  const contrast = (a, b) => {
    const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
    return (light + 0.05) / (dark + 0.05);
  };

  // 2.4.13: a ring of 2 px or more that stands out 3:1 from what is around it.
  const ringFault = (element) => {
    const style = getComputedStyle(element);
    if (!element.matches(":focus-visible")) return "has the focus, but the browser does not show it";
    if (["none", "hidden"].includes(style.outlineStyle)) return "has no ring when it has the focus";
    const width = parseFloat(style.outlineWidth);
    if (width < 2) return `has a ring of ${width} px`;
    const around = behind(element.parentElement);
    const ratio = contrast(colour(style.outlineColor), around);
    if (ratio < 3) return `has a ring of contrast ${ratio.toFixed(2)}`;
    const reach = width + parseFloat(style.outlineOffset);
    for (let e = element.parentElement; e && e !== document.body; e = e.parentElement) {
      if (getComputedStyle(e).overflow === "visible") continue;
      const [inner, outer] = [element.getBoundingClientRect(), e.getBoundingClientRect()];
      if (inner.left - reach < outer.left - 1 || inner.top - reach < outer.top - 1) return "has a ring that is cut off";
    }
    return null;
  };

  // 2.4.11 and 2.4.12: the whole control is in view, and nothing lies over it.
  const viewFault = (element) => {
    const rects = [...element.getClientRects()].filter((r) => r.width > 0 && r.height > 0);
    if (rects.length === 0) return "has no size";
    const tall = rects.at(-1).bottom - rects[0].top > window.innerHeight;
    for (const r of rects) {
      const outside = r.top < -0.5 || r.bottom > window.innerHeight + 0.5;
      if ((outside && !tall) || r.left < -0.5 || r.right > window.innerWidth + 0.5) return "is not wholly in view";
      const [x, y] = [r.left + r.width / 2, r.top + r.height / 2];
      if (y < 0 || y > window.innerHeight) continue;
      const top = document.elementFromPoint(x, y);
      const own = top && (element.contains(top) || [...(element.labels ?? [])].some((l) => l.contains(top)));
      if (!own) return `is covered by ${top ? window.nameOf(top) : "nothing"}`;
    }
    return null;
  };

  window.lookAtFocus = () => {
    const element = document.activeElement;
    if (element === null || element === document.body || element === document.documentElement) return null;
    const faults = [ringFault(element), viewFault(element)];
    const { width, height } = target(element);
    const small = width < TARGET - 0.01 || height < TARGET - 0.01;
    if (small && !inSentence(element)) faults.push(`is ${width.toFixed(1)} by ${height.toFixed(1)} px`);
    const group = element.type === "radio" && document.querySelectorAll(`input[name="${element.name}"]`);
    const place = window.controls.findIndex((e) => e === element || sameGroup(e, element));
    return {
      name: window.nameOf(element),
      place,
      choices: group ? group.length : 0,
      faults: faults.filter((fault) => fault !== null),
    };
  };
}
