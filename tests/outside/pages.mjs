// Pages on a phone: how many screens long they are, what is on the first of them, how much the head takes, that nothing
// moves while a page loads slowly, and that "this week" is that of the reader's own day.
//
// With `--table` it prints what it measures, of one page of each kind.

import { readFileSync } from "node:fs";
import { join } from "node:path";

import { eachPage, launch, settled } from "./browser.mjs";
import { builtOn, Defects, lookedAt, serve, siteFolder } from "./site.mjs";

const PHONE = { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true };
const HEAD = 1 / 6; // of a screen
const SHIFT = 0.02;
/** The most screens of a page; a week of five exercises has 12. */
const SCREENS = { week: 12, exercise: 6, home: 6, library: 14 };
// A slow phone: a processor of a quarter of the speed. With 1.6 Mbit/s and 150 ms, as Lighthouse has it for slow 4G, a page
// of ours is there at once; to see what moves it has to come in pieces, with 0.4 Mbit/s and 300 ms.
const network = (megabits, latency) => {
  const bytes = (megabits * 1024 * 1024) / 8;
  return { offline: false, latency, downloadThroughput: bytes, uploadThroughput: bytes / 2 };
};
const [SLOW, SLOWEST] = [network(1.6, 150), network(0.4, 300)];

const table = process.argv.includes("--table");
if (table) process.argv.splice(process.argv.indexOf("--table"), 1);
const folder = siteFolder();
const defects = new Defects("pages");
const site = await serve(folder);
const browser = await launch();
let looked = 0;

/** What kind of page stands at a path. */
function kindOf(path) {
  if (path === "index.html") return "home";
  if (path === "exercises/index.html") return "library";
  if (/^exercises\/list\//.test(path)) return "list";
  if (/^exercises\/practice\//.test(path)) return "practice";
  if (/^exercises\//.test(path)) return "exercise";
  if (/^series\/[^/]+\/week-\d+\.html$/.test(path)) return "week";
  if (/^series\/[^/]+\/index\.html$/.test(path)) return "series";
  return path.replace(/^.*\/|\.html$/g, "").replace(/^week-\d+-/, "");
}

const built = builtOn(folder);

const timed = new WeakSet();
const pages = lookedAt(folder).filter((path) => !path.startsWith("educator/"));
await eachPage(browser, pages, PHONE, async (page, path) => {
  const kind = kindOf(path);
  const say = (what) => defects.add(path, what);
  if (!timed.has(page)) await page.addInitScript(clockAt, built);
  timed.add(page);
  await page.goto(site.address + path);
  await settled(page);
  const seen = await page.evaluate(look);
  looked += 1;
  const screen = PHONE.viewport.height;
  if (seen.head > screen * HEAD) say(`the head takes ${seen.head.toFixed(0)} of ${screen} px`);
  const screens = seen.height / screen;
  const most = SCREENS[kind] && (kind === "week" ? (SCREENS.week * Math.max(seen.exercises, 5)) / 5 : SCREENS[kind]);
  if (screens > most) say(`is ${screens.toFixed(1)} screens long, at most ${most} are right`);
  if (["home", "week", "exercise", "library"].includes(kind)) {
    if (seen.picture === null) say("shows no picture");
    else if (seen.picture > screen) say(`its first picture ends at ${(seen.picture / screen).toFixed(2)} screens, not on the first`);
  }
  if (kind === "exercise" && !(seen.step <= 2 * screen)) say(`its first step ends at ${(seen.step / screen).toFixed(2)} screens, not on the second`);
  for (const name of seen.twins) say(`two have the name "${name}"`);
});

await slowly();
await everyDay();
await browser.close();
await site.close();
defects.finish(looked, "looks at pages");

/** Runs in the page. */
function look() {
  const bottom = (element) => element && element.getBoundingClientRect().bottom + scrollY;
  const large = (element) => {
    const { width, height } = element.getBoundingClientRect();
    return width >= 48 && height >= 48;
  };
  const names = [...document.querySelectorAll("main :is(h2, h3, h4, button, summary)")]
    .filter((element) => element.checkVisibility())
    .map((element) => `${element.localName === "button" ? "button" : "heading"}: ${element.innerText.trim().replace(/\s+/g, " ")}`);
  return {
    head: document.querySelector(".head").getBoundingClientRect().height,
    height: document.documentElement.scrollHeight,
    exercises: document.querySelectorAll("article.exercise").length,
    picture: bottom([...document.querySelectorAll("main :is(svg, img)")].find(large)) ?? null,
    step: bottom(document.querySelector(".section.move li, .section ol li")),
    twins: [...new Set(names.filter((name, at) => names.indexOf(name) !== at))],
  };
}

/** What moves while a page of each kind loads on a slow phone, where nothing is kept. */
async function slowly() {
  const first = new Map(pages.map((path) => [kindOf(path), path]).reverse());
  for (const [kind, path] of first) {
    const context = await browser.newContext({ ...PHONE, serviceWorkers: "block" });
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send("Network.enable");
    await session.send("Network.emulateNetworkConditions", table ? SLOW : SLOWEST);
    await session.send("Emulation.setCPUThrottlingRate", { rate: 4 });
    await page.addInitScript(() => {
      window.seen = { shift: 0, moved: [], paint: 0 };
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) {
          if (entry.hadRecentInput) continue;
          window.seen.shift += entry.value;
          for (const { node } of entry.sources) window.seen.moved.push(node?.className || node?.nodeName || "?");
        }
      }).observe({ type: "layout-shift", buffered: true });
      new PerformanceObserver((list) => (window.seen.paint = list.getEntries().at(-1).startTime)).observe({ type: "largest-contentful-paint", buffered: true });
    });
    let bytes = 0;
    let requests = 0;
    session.on("Network.loadingFinished", (event) => {
      bytes += event.encodedDataLength;
      requests += 1;
    });
    await page.goto(site.address + path, { waitUntil: "load", timeout: 120_000 });
    await settled(page);
    await page.waitForTimeout(500);
    const { shift, moved, paint } = await page.evaluate(() => window.seen);
    looked += 1;
    if (shift > SHIFT) defects.add(path, `moves by ${shift.toFixed(3)} while it loads: ${moved.slice(0, 4).join(", ")}`);
    if (table) {
      const height = await page.evaluate(() => document.documentElement.scrollHeight);
      console.log([kind, path, (height / 844).toFixed(1), (bytes / 1024).toFixed(0), requests, (paint / 1000).toFixed(2), shift.toFixed(3)].join("\t"));
    }
    await context.close();
  }
}

/** "This week" before, in and after the first series, and without scripts. */
async function everyDay() {
  const home = readFileSync(join(folder, "index.html"), "utf8");
  const days = [...home.matchAll(/data-now="([^"]*)" data-until="([^"]*)"/g)].map(([, from, until]) => ({ from, until }));
  const ends = days.findIndex((day) => day.until === "");
  const series = days.slice(0, ends + 1);
  if (series.length < 3) return defects.add("index.html", "does not know the days of its weeks");
  const shift = (day, by) => new Date(Date.parse(`${day}T12:00:00Z`) + by * 86_400_000).toISOString().slice(0, 10);
  const [first, last] = [series[0].until, series[ends].from];
  const middle = series[Math.ceil(series.length / 2)].from;
  const tries = [
    { day: shift(first, -1), label: 0 },
    { day: first, label: 1 },
    { day: shift(middle, -1), label: Math.ceil(series.length / 2) - 1 },
    { day: middle, label: Math.ceil(series.length / 2) },
    { day: shift(last, -1), label: ends - 1 },
    { day: last, label: ends },
    { day: shift(last, 400), label: ends },
  ];
  const times = ["T00:00:01", "T23:59:59"];
  for (const timezoneId of ["Pacific/Auckland", "America/Los_Angeles"]) {
    const context = await browser.newContext({ ...PHONE, timezoneId, serviceWorkers: "block" });
    const page = await context.newPage();
    for (const { day, label } of tries) {
      for (const time of times) {
        await page.addInitScript(clockAt, `${day}${time}`);
        const where = `index.html on ${day}${time} in ${timezoneId}`;
        await page.goto(site.address);
        const shown = await page.evaluate(() =>
          document.querySelector(".now-of").querySelectorAll(":scope > .this-week:not([hidden])").length,
        );
        const at = await page.evaluate(() =>
          [...document.querySelector(".now-of").querySelectorAll(":scope > .this-week")].findIndex((part) => !part.hidden),
        );
        looked += 1;
        if (shown !== 1) defects.add(where, `shows ${shown} weeks`);
        if (at !== label) defects.add(where, `shows part ${at} of the days, not ${label}`);
        const seen = await page.evaluate(() => document.querySelector(".now-of > .this-week:not([hidden]) h2")?.innerText);
        if (!seen) defects.add(where, "shows no week");
        const rows = await nowOf(page);
        const inside = label > 0 && label < ends;
        if (rows.length !== (inside ? 1 : 0)) defects.add(where, `the table of weeks marks ${rows.length} of them`);
        if (inside && rows[0] !== seen) defects.add(where, `the table of weeks marks "${rows[0]}", the first page shows "${seen}"`);
      }
    }
    await context.close();
  }
  await doses(series, ends);
  await withoutScripts();
}

/** The rows of the first series that are marked as this week. */
async function nowOf(page) {
  const series = await page.evaluate(() => document.querySelector(".tiles a").href);
  await page.goto(series);
  return page.evaluate(() => [...document.querySelectorAll(".coverage tr.now th a")].map((link) => link.innerText));
}

/** The dose of an exercise on its own page is that of the week of the day. */
async function doses(series, ends) {
  const context = await browser.newContext({ ...PHONE, serviceWorkers: "block" });
  const page = await context.newPage();
  // A clock that was set back by weeks finds the week, and not its exercises.
  const near = series.findIndex(({ from }) => built.startsWith(from || "-")) - 1;
  for (const { from } of series.slice(Math.max(near, 1), ends)) {
    await page.addInitScript(clockAt, `${from}T10:00:00`);
    await page.goto(site.address);
    const glance = await page.evaluate(() =>
      [...document.querySelectorAll(".this-week:not([hidden]) .glance li")].map((item) => ({
        href: item.querySelector("a").href,
        dose: item.querySelector(".what + p").lastChild.textContent.trim(),
      })),
    );
    if (glance.length === 0) defects.add("index.html", `shows no exercise on ${from}`);
    for (const { href, dose } of glance) {
      const id = new URL(href).hash.replace("#exercise.", "");
      await page.goto(`${site.address}exercises/${id}.html`);
      const said = await page.evaluate(() => [...document.querySelectorAll(".now-dose p")].filter((line) => !line.hidden).map((line) => line.innerText));
      looked += 1;
      const where = `exercises/${id}.html on ${from}`;
      if (said.length !== 1) defects.add(where, `says ${said.length} doses of this week`);
      else if (!said[0].includes(dose)) defects.add(where, `says "${said[0]}", the first page "${dose}"`);
      await page.goto(href);
      const whole = await page.evaluate((id) => document.getElementById(`exercise.${id}`) !== null, id);
      if (!whole) defects.add(where, `the first page leads to ${href}, where the exercise is not`);
    }
  }
  await context.close();
}

async function withoutScripts() {
  const context = await browser.newContext({ ...PHONE, javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(site.address);
  const said = await page.locator(".this-week:visible").allInnerTexts();
  looked += 1;
  if (said.length === 0 || !said.every((text) => /\d{4}/.test(text))) defects.add("index.html", "without scripts it shows no week with its date");
  await context.close();
}

/** Runs in the page: its clock stands at a moment of the place where it is. */
function clockAt(moment) {
  const Real = Date;
  const still = new Real(moment).getTime();
  window.Date = class extends Real {
    constructor(...parts) {
      super(...(parts.length === 0 ? [still] : parts));
    }
    static now() {
      return still;
    }
  };
}
