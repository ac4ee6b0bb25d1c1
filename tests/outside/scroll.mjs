// No sideways scroll where a page is narrow, zoomed, or set with the reader's own spacing, and nothing cut off.

import { eachPage, launch, settled } from "./browser.mjs";
import { Defects, lookedAt, serve, siteFolder } from "./site.mjs";

// WCAG 2.2, 1.4.12: line height 1.5, paragraphs 2, letters 0.12 and words 0.16 times the type's size.
const SPACING = `* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; }
  p { margin-bottom: 2em !important; }`;
// Of the theme's own type, which is 125 % of what the browser asks for.
const TWICE = "html { font-size: 250% !important; }";
const LOOKS = [
  // 1.4.10: 320 CSS px wide, which is also 1280 px at 400 %.
  { name: "320 px", width: 320, height: 256 },
  { name: "320 px with wide spacing", width: 320, height: 256, css: SPACING },
  // 1.4.4: letters of twice the size, where the window stays as it is.
  { name: "640 px with type of 200 %", width: 640, height: 800, css: TWICE },
  { name: "320 px with type of 200 %", width: 320, height: 640, css: TWICE },
  { name: "1280 px", width: 1280, height: 900 },
];

const folder = siteFolder();
const defects = new Defects("scroll");
const site = await serve(folder);
const browser = await launch();
let looked = 0;

await eachPage(browser, lookedAt(folder), { bypassCSP: true }, async (page, path) => {
  await page.goto(site.address + path);
  for (const look of LOOKS) {
    await page.setViewportSize({ width: look.width, height: look.height });
    const style = look.css && (await page.addStyleTag({ content: look.css }));
    await settled(page);
    const found = await page.evaluate(lookForOverflow);
    looked += 1;
    for (const what of found) defects.add(`${path} at ${look.name}`, what);
    if (style) await style.evaluate((element) => element.remove());
  }
});

await browser.close();
await site.close();
defects.finish(looked, "looks at pages");

/** Runs in the page: what reaches out of it sideways, and what is cut off. */
function lookForOverflow() {
  const found = [];
  const name = (e) => e.tagName.toLowerCase() + (e.id ? `#${e.id}` : "") + (e.className ? `.${e.classList[0]}` : "");
  const root = document.documentElement;
  const wide = root.clientWidth;
  if (root.scrollWidth > wide) found.push(`scrolls sideways, ${root.scrollWidth} px in ${wide} px`);
  const scrolls = (e) => ["auto", "scroll"].includes(getComputedStyle(e).overflowX);
  for (const element of document.body.querySelectorAll("*")) {
    const style = getComputedStyle(element);
    const rect = element.getBoundingClientRect();
    if (rect.width === 0 || rect.height === 0 || element.closest("svg") !== null) continue;
    // Words for a screen reader alone, and the skip link, are a box of one pixel on purpose.
    if (rect.width <= 1 && rect.height <= 1) continue;
    if (scrolls(element)) {
      if (element.scrollWidth > element.clientWidth && element.tabIndex < 0) {
        found.push(`${name(element)} scrolls, but not by keyboard`);
      }
      continue;
    }
    let within = element.parentElement;
    while (within && !scrolls(within)) within = within.parentElement;
    if (within === null && (rect.right > wide + 0.5 || rect.left < -0.5)) {
      found.push(`${name(element)} reaches from ${rect.left.toFixed(0)} to ${rect.right.toFixed(0)} px`);
    }
    const cuts = ["hidden", "clip"];
    if (cuts.includes(style.overflowX) && element.scrollWidth > element.clientWidth + 1) {
      found.push(`${name(element)} is cut off at its side`);
    }
    if (cuts.includes(style.overflowY) && element.scrollHeight > element.clientHeight + 1) {
      found.push(`${name(element)} is cut off below`);
    }
  }
  return found;
}
