// The browser of the checks: Debian's Chromium, without a window and without calls of its own.

import { chromium } from "playwright-core";

const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** Starts the browser. */
export function launch() {
  const executablePath = process.env.CHROMIUM ?? "/usr/bin/chromium";
  return chromium.launch({ executablePath, headless: true, args: FLAGS });
}

/** Does `work(page, item)` for every item, on as many pages at once as there are processors. */
export async function eachPage(browser, items, options, work) {
  const waiting = [...items];
  const worker = async () => {
    const context = await browser.newContext(options);
    const page = await context.newPage();
    for (let item = waiting.shift(); item !== undefined; item = waiting.shift()) await work(page, item);
    await context.close();
  };
  await Promise.all([worker(), worker()]);
}

/** Waits until the fonts are there, no part of the page is busy, and it has been laid out. */
export async function settled(page) {
  await page.evaluate(async () => {
    while (document.querySelector("[aria-busy=true]")) await new Promise((done) => setTimeout(done, 20));
    // A device that keeps the site is done with it after a moment, and offers something else then.
    const keeps = () => [...document.querySelectorAll("[data-state=looking], [data-state=saving]")].some((told) => !told.hidden);
    for (let turn = 0; turn < 250 && keeps(); turn += 1) await new Promise((done) => setTimeout(done, 20));
    await document.fonts.ready;
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  });
}
