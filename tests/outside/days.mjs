// "My days" as a client has it: checked off, told how it went, a fall and whom to call, saved and brought back, printed,
// sent, erased; in two windows, without room, in a private window, after the browser has cleared it, with a clock that was
// set back; by keyboard alone; by axe with everything open. The schema of the file is that of the program, in the file
// that the environment names.

import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";

import Ajv from "ajv/dist/2020.js";

import { launch, settled } from "./browser.mjs";
import { Defects, serve, siteFolder } from "./site.mjs";

const PAGE = "my-days.html";
const NOW = "2027-02-17T10:00:00"; // A Wednesday of the demonstration's seventh week.
const TODAY = NOW.slice(0, 10);
const folder = siteFolder();
if (!process.env.STEADYLEAF_PRACTICE_SCHEMA) {
  console.error("STEADYLEAF_PRACTICE_SCHEMA names no file: `steadyleaf schema practice` prints what it should hold");
  process.exit(2);
}
const schema = JSON.parse(await readFile(process.env.STEADYLEAF_PRACTICE_SCHEMA, "utf8"));
const isDay = (text) => new Date(`${text}T00:00:00Z`).toISOString?.().slice(0, 10) === text;
const valid = new Ajv({ strictTypes: false, formats: { date: (text) => !Number.isNaN(Date.parse(text)) && isDay(text) } }).compile(schema);
const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const defects = new Defects("days");
const site = await serve(folder);
const browser = await launch();
let looked = 0;
const expect = (holds, what) => {
  looked += 1;
  if (!holds) defects.add("days", what);
};

/** Waits until `holds` does, and answers whether it came to. */
async function soon(holds) {
  const end = Date.now() + 8000;
  while (Date.now() < end) {
    if (await holds()) return true;
    await new Promise((done) => setTimeout(done, 50));
  }
  return false;
}

/** Waits until so many entries are kept, and noted. */
const noted = (page, n) => soon(() => page.evaluate((n) => localStorage.getItem("steadyleaf days") === String(n), n));

/** A device of its own, and a window on it. */
async function device(options = {}) {
  const { now = NOW, script, ...rest } = options;
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, acceptDownloads: true, ...rest });
  await context.clock.setFixedTime(new Date(now));
  if (script) await context.addInitScript(script);
  return { context, page: await open(context) };
}

async function open(context) {
  const page = await context.newPage();
  page.on("pageerror", (error) => defects.add("script", error.message));
  page.on("request", (request) => {
    if (!/^(blob:|data:)/.test(request.url()) && !request.url().startsWith(site.address)) defects.add("days", `asks for ${request.url()}`);
  });
  await page.goto(site.address + PAGE);
  await settled(page);
  return page;
}

const told = (page, place = "told") => page.locator(`#days\\.${place}`).innerText();
const boxes = (page, day = ".today") => page.locator(`.day-list > ${day} .tick input`);
const kept = (page) => page.evaluate(() => window.days.all());
const titled = (page, n) => page.locator(".day-list > .today .did-name").nth(n).innerText();
const put = (page, name, text) => page.setInputFiles("#days\\.file", { name, mimeType: "application/json", buffer: Buffer.from(text) });
const saidOfFile = async (page, act) => {
  await page.evaluate(() => document.getElementById("days.file-told").replaceChildren());
  await act();
  await page.waitForFunction(() => document.getElementById("days.file-told").textContent !== "");
  return told(page, "file-told");
};
const entry = (fields) => ({
  id: "one", exercise: "heel-drop", title: "Heel drop", series: null, week: null, form: null, on: TODAY,
  sets: null, effort: null, felt: null, trouble: null, how: "practice", changes: 0, ...fields,
});
const file = (days, top = {}) => JSON.stringify({ steadyleaf: "practice", version: 1, days, ...top });

// Checked off, told, kept.
const { context, page } = await device();
expect((await page.locator("#days\\.week").innerText()).includes("7"), "the week of the day is not shown");
expect((await boxes(page).count()) >= 4, "today lacks the exercises of its week");
expect(await page.locator("#days\\.empty").isVisible(), "an empty page does not say that nothing is kept");
await boxes(page).nth(0).check();
await boxes(page).nth(1).check();
await page.locator(".today .went summary").nth(1).click();
const form = page.locator(".today .went").nth(1);
await form.locator("[name=sets]").selectOption("2");
const words = await form.locator("[name=effort] option").allInnerTexts();
expect(words.length === 12 && words.slice(1).every((word, n) => word.startsWith(`${n}: `) && word.length > 6), `effort has not 11 numbers, each in words: ${words}`);
await form.locator("[name=effort]").selectOption("5");
await form.locator("[name=felt]").fill("Steady.\nNo <b>pain</b>.");
await form.locator("[type=radio][value=fall]").check();
const alarm = form.locator("[role=alert]");
const number = await page.locator(".whom .call a").first().getAttribute("href");
expect(await alarm.isVisible(), "a fall does not show whom to call");
expect((await alarm.locator(`a[href="${number}"]`).count()) === 1 && number.startsWith("tel:"), "a fall does not show the emergency number");
expect((await alarm.locator("a[href^='tel:']").count()) === 2, "a fall does not show the educator's telephone");
expect(await alarm.locator(".call").first().evaluate((e) => e.getBoundingClientRect().bottom <= innerHeight), "the emergency number is not in view");
await soon(async () => (await kept(page)).some((one) => one.trouble === "fall" && one.felt !== null));
const first = await kept(page);
expect(first.length === 2 && first.every((one) => one.on === TODAY && one.how === "ticked" && one.week === 7), `not kept as it was: ${JSON.stringify(first)}`);
const full = first.find((one) => one.trouble === "fall");
expect(full?.sets === 2 && full.effort === 5 && full.felt === "Steady.\nNo <b>pain</b>.", `not kept as it was told: ${JSON.stringify(full)}`);
await page.reload();
await settled(page);
expect((await boxes(page).evaluateAll((all) => all.filter((box) => box.checked).length)) === 2, "a new visit does not show what was checked off");
expect(!(await page.locator(".today [role=alert]").count()), "an old fall cries out again");
const chart = await page.locator(".day-chart > li").allInnerTexts();
expect(chart.length === 1 && /\b2 of \d+/.test(chart[0]), `the chart says ${chart}`);
const words_of_page = (await page.locator("main").innerText()).toLowerCase();
for (const word of ["streak", "well done", "great", "missed", "score", "failed"]) expect(!words_of_page.includes(word), `the page says "${word}"`);

// Saved, and by the program's schema.
const download = page.waitForEvent("download");
await page.click("#days\\.save");
const saved = await download;
const text = await readFile(await saved.path(), "utf8");
expect(saved.suggestedFilename() === `my-days-${TODAY}.json`, `the file is called ${saved.suggestedFilename()}`);
expect(valid(JSON.parse(text)), `the file breaks the schema: ${JSON.stringify(valid.errors)}`);
expect((await told(page, "file-told")).includes(saved.suggestedFilename()), "the name of the file is not told");

// Brought back on another device: the same.
{
  const other = await device();
  const said = await saidOfFile(other.page, () => put(other.page, "my-days.json", text));
  expect(said.includes("2 "), `bringing back says: ${said}`);
  expect(JSON.stringify(await kept(other.page)) === JSON.stringify(first), "what is brought back differs from what was saved");
  expect((await boxes(other.page).evaluateAll((all) => all.filter((box) => box.checked).length)) === 2, "what was brought back is not shown");
  await saidOfFile(other.page, () => put(other.page, "again.json", `\ufeff${text}`));
  expect((await kept(other.page)).length === 2, "bringing back twice doubles it");
  // Of two that differ, the one that was changed more often is the newer; else what is here stays, and is told.
  const renewed = { ...full, effort: 8, changes: full.changes + 1 };
  await saidOfFile(other.page, () => put(other.page, "newer.json", file([renewed])));
  expect((await kept(other.page)).some((one) => one.effort === 8), "a newer entry of a file does not come in");
  const stays = await saidOfFile(other.page, () => put(other.page, "older.json", file([full])));
  expect((await kept(other.page)).some((one) => one.effort === 8) && stays.includes("different"), `an older entry of a file: ${stays}`);

  // A bad file is refused whole.
  const before = JSON.stringify(await kept(other.page));
  const bad = {
    "not JSON": "My days",
    "another JSON": '{"name": "J"}',
    "cut off": text.slice(0, -20),
    "a newer version": file([entry()], { version: 2 }),
    "something more": file([entry()], { more: 1 }),
    "one bad among good": file([entry(), entry({ id: "two", effort: 11 })]),
    "one name twice": file([entry(), entry()]),
    "a day that is none": file([entry({ on: "2027-02-30" })]),
    "a list": "[]",
    nothing: "",
  };
  const sentences = new Set();
  for (const [name, content] of Object.entries(bad)) {
    const said = await saidOfFile(other.page, () => put(other.page, "bad.json", content));
    sentences.add(said);
    expect(said.length > 40 && !/error|undefined|JSON|\[/i.test(said), `${name}: is refused with "${said}"`);
    expect(JSON.stringify(await kept(other.page)) === before, `${name}: something of it was taken`);
  }
  expect(sentences.size === 3, `bad files are told in ${sentences.size} ways`);
  await other.context.close();
}

// What the page takes, the schema takes, and the other way round.
{
  const values = [null, 0, 1, 5, 10, 11, 50, 51, 520, 521, -1, 1.5, "", " ", "a", "a\u0007", "\u200b", "a\nb", "x".repeat(100), "x".repeat(101), "x".repeat(201), "x".repeat(1001), "2027-02-15", "2027-02-30", "1899-01-01", "fall", "pain", "other", "none", "practice", "ticked", true, [], {}];
  const cases = [{}, { mood: 1 }];
  for (const name of Object.keys(entry())) {
    for (const value of values) cases.push({ [name]: value });
    cases.push({ [name]: undefined });
  }
  const all = cases.map((fields) => JSON.parse(JSON.stringify(entry(fields))));
  const taken = await page.evaluate((all) => all.map((one) => window.days.whole(one) !== null), all);
  all.forEach((one, at) => {
    const passes = valid({ steadyleaf: "practice", version: 1, days: [one] });
    const what = JSON.stringify(cases[at]).slice(0, 60);
    expect(taken[at] === passes, `${what}: the page ${taken[at] ? "takes" : "refuses"} it, the schema does not agree`);
  });
}

// Two windows.
{
  const second = await open(context);
  await boxes(second).nth(2).check();
  await page.waitForFunction(() => document.querySelectorAll(".today .tick input")[2].checked, null, { timeout: 5000 }).catch(() => {});
  expect(await boxes(page).nth(2).isChecked(), "the other window does not show what was checked off");
  // The same thing checked off in both at once is one thing.
  const [fourth] = first.map((one) => ({ ...one, id: `${TODAY} fourth`, exercise: "fourth", title: "Fourth" }));
  await Promise.all([page, second].map((one) => one.evaluate((fields) => window.days.add(fields), fourth)));
  const isFourth = async () => (await titled(page, (await boxes(page).count()) - 1)) === "Fourth";
  expect((await soon(isFourth)) && (await kept(page)).length === 4, "two windows check off the same thing twice");
  // One changes what the other has just taken off: it is there again, and told.
  await page.locator(".today .went summary").nth(2).click();
  const id = await page.evaluate(() => [...document.querySelectorAll(".today .went")][2].querySelector("[type=radio]").name.replace("trouble ", ""));
  await second.evaluate(
    (id) =>
      new Promise((done) => {
        indexedDB.open("steadyleaf days").onsuccess = (event) => {
          const transaction = event.target.result.transaction("days", "readwrite");
          transaction.objectStore("days").delete(id);
          transaction.oncomplete = done;
        };
      }),
    id,
  );
  await page.locator(".today .went").nth(2).locator("[name=effort]").selectOption("3");
  expect(await soon(async () => (await kept(page)).some((one) => one.id === id && one.effort === 3)), "what was changed here and taken off there is lost");
  expect((await told(page)).length > 20, "what was changed here and taken off there is lost without a word");
  // What Practice now counts is there, beside what was checked off by hand.
  await second.evaluate((one) => window.days.add(one), { exercise: full.exercise, title: full.title, series: "lantern-hill", week: "week-07", form: null, sets: 2, effort: null, felt: null, trouble: null, how: "practice" });
  expect(await soon(async () => (await page.locator(".today .times").nth(1).locator(".went").count()) === 2), "what Practice now counted is not shown beside the rest");
  expect((await kept(page)).find((one) => one.how === "practice")?.week === 7, "the week of what Practice now counted is not its number");
  // Taking off what has words on it asks first.
  await page.bringToFront();
  await boxes(page).nth(1).uncheck({ force: true }).catch(() => {});
  expect(await page.locator("#days\\.ask").isVisible(), "what has words on it is taken off without a question");
  await page.keyboard.press("Escape");
  expect((await soon(() => boxes(page).nth(1).isChecked())) && (await kept(page)).length === 5, "no to the question takes it off all the same");
  await boxes(page).nth(0).uncheck();
  expect(await soon(async () => (await kept(page)).length === 4), "what has no words on it is not taken off at once");

  // On paper, and as a text.
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  await page.emulateMedia({ media: "print" });
  const paper = await page.locator("#days\\.paper").innerText();
  expect(paper.includes("effort 5") && paper.includes("a fall") && paper.includes("Steady."), `on paper stands: ${paper}`);
  expect(!(await page.locator("#days\\.form").isVisible()), "the buttons are printed too");
  await page.emulateMedia({ media: "screen" });
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  const mail = new URL(await page.getAttribute("#days\\.mail", "href"));
  const educator = await page.locator("footer a[href^='mailto:']").getAttribute("href");
  expect(mail.protocol === "mailto:" && educator === `mailto:${mail.pathname}`, `the mail goes to ${mail.pathname}`);
  expect(mail.searchParams.get("body").replace(/\r\n/g, "\n") === (await page.inputValue("#days\\.text")), "the mail says something else than the page");
  for (const said of [full.title, "effort 5", "a fall", "Steady."]) expect(mail.searchParams.get("body").includes(said), `the mail lacks "${said}"`);
  const long = Array.from({ length: 80 }, (_, n) => entry({ id: `long ${n}`, felt: "Many words." }));
  await saidOfFile(page, () => put(page, "long.json", file(long)));
  expect((await page.getAttribute("#days\\.mail", "href")).length < 2000 && (await told(page, "send-told")).length > 20, "a text that is too long for a mail is not told");

  // Everything erased, after a question, in both windows.
  await page.click("#days\\.erase");
  await page.click("#days\\.ask [data-answer=no]");
  expect((await kept(page)).length > 80, "no to the question erases all the same");
  await page.click("#days\\.erase");
  await page.click("#days\\.ask [data-answer=yes]");
  expect(await soon(async () => (await kept(page)).length === 0), "not everything is erased");
  expect(await soon(() => page.evaluate(() => document.activeElement.closest("#days\\.told") !== null)), "after erasing, the focus is nowhere");
  expect(await soon(() => boxes(second).evaluateAll((all) => all.every((box) => !box.checked))), "the other window still shows what was erased");
  await page.reload();
  await settled(page);
  expect((await told(page)) === "", `after erasing, a new visit says: ${await told(page)}`);
  await context.close();
}

// No room: nothing is lost without a word.
{
  const { context, page } = await device();
  const devtools = await context.newCDPSession(page);
  const origin = new URL(site.address).origin;
  // The browser asks once how much room there is, and remembers: so before anything is kept.
  await devtools.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 1 });
  await boxes(page).nth(0).check();
  await boxes(page).nth(1).check();
  await page.waitForFunction(() => document.getElementById("days.told").textContent !== "", null, { timeout: 5000 }).catch(() => {});
  expect((await told(page)).includes("room"), `without room the page says: ${await told(page)}`);
  expect(await boxes(page).nth(1).isChecked(), "without room the page forgets what was checked off");
  const download = page.waitForEvent("download");
  await page.click("#days\\.save");
  const lines = JSON.parse(await readFile(await (await download).path(), "utf8")).days;
  expect(lines.length === 2, "the file lacks what had no room");
  await page.locator(".today .went summary").nth(1).click();
  await page.locator(".today .went").nth(1).locator("[name=effort]").selectOption("4");
  // Longer than a wrong word would need to come.
  await page.waitForTimeout(500);
  expect((await told(page)).includes("room"), `without room, a change is told as: ${await told(page)}`);
  await devtools.send("Storage.overrideQuotaForOrigin", { origin });
  await page.locator("#days\\.told button").click();
  expect((await soon(async () => (await kept(page)).some((one) => one.effort === 4))) && (await kept(page)).length === 2, "with room again it is not kept");
  await context.close();
}

// A browser that keeps nothing, one whose database is of a newer version, one whose database is broken.
const failing = (name) => `IDBFactory.prototype.open = function () {
  const request = { error: new DOMException("", "${name}") };
  setTimeout(() => request.onerror?.());
  return request;
};`;
for (const [name, script, word] of [
  ["a private window", "Object.defineProperty(window, 'indexedDB', { value: undefined });", "private"],
  ["a private window that fails late", failing("InvalidStateError"), "private"],
  ["a newer version", failing("VersionError"), "newer version"],
  ["a broken database", failing("UnknownError"), "cannot read"],
]) {
  const { context, page } = await device({ script });
  expect((await told(page)).includes(word), `${name}: the page says ${await told(page)}`);
  await boxes(page).nth(0).check();
  await page.waitForTimeout(200);
  expect(await boxes(page).nth(0).isChecked(), `${name}: what is checked off does not stay on the page`);
  const download = page.waitForEvent("download");
  await page.click("#days\\.save");
  expect(JSON.parse(await readFile(await (await download).path(), "utf8")).days.length === 1, `${name}: it cannot be saved to a file`);
  const asks = page.waitForEvent("dialog", { timeout: 3000 }).then((dialog) => dialog.accept().then(() => true), () => false);
  await page.close({ runBeforeUnload: true });
  expect(await asks, `${name}: the page closes without a word`);
  await context.close();
}
{
  // The real thing: a database with a higher number.
  const { context, page } = await device();
  await boxes(page).nth(0).check();
  await noted(page, 1);
  await page.evaluate(() => new Promise((done) => (indexedDB.open("steadyleaf days", 2).onsuccess = (event) => done(event.target.result.close()))));
  await page.reload();
  await settled(page);
  expect((await told(page)).includes("newer version"), `after a newer version the page says: ${await told(page)}`);
  await context.close();
}

// Cleared by the browser: while the page is away, and while it is open.
{
  const { context, page } = await device();
  await boxes(page).nth(0).check();
  await boxes(page).nth(1).check();
  await noted(page, 2);
  const devtools = await context.newCDPSession(page);
  const clear = (storageTypes) => devtools.send("Storage.clearDataForOrigin", { origin: new URL(site.address).origin, storageTypes });
  await clear("all");
  await page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
  await page.waitForFunction(() => document.getElementById("days.told").textContent !== "", null, { timeout: 5000 }).catch(() => {});
  expect((await told(page)).includes("cleared"), `cleared while open, the page says: ${await told(page)}`);
  await page.locator("#days\\.told button").first().click();
  await noted(page, 2);
  expect((await kept(page)).length === 2, "what the page still has cannot be kept again");
  await clear("indexeddb");
  await page.reload();
  await settled(page);
  expect((await told(page)).includes("cleared") && (await told(page)).includes("2"), `cleared while away, the page says: ${await told(page)}`);
  await page.locator("#days\\.told button").first().click();
  await noted(page, 0);
  await page.reload();
  await settled(page);
  expect((await told(page)) === "", "the page says for ever that it was cleared");
  await context.close();
}

// A clock that was set back.
{
  const { context, page } = await device();
  await boxes(page).nth(0).check();
  await noted(page, 1);
  await context.clock.setFixedTime(new Date("2027-01-20T10:00:00"));
  await page.reload();
  await settled(page);
  const said = await told(page, "ahead");
  expect(said.includes("February 17") && said.includes("January 20"), `with the clock set back the page says: ${said}`);
  await page.locator("#days\\.ahead button").click();
  expect((await page.locator(".went").count()) === 1, "what lies ahead cannot be seen");
  expect((await kept(page)).length === 1, "what lies ahead is lost");
  await context.close();
}

// Before the first week, after the last, and over midnight.
{
  const { context, page } = await device({ now: "2026-12-20T10:00:00" });
  expect((await page.locator("#days\\.note").innerText()).includes("January 4"), "before the first week, its day is not said");
  expect((await page.locator(".tick:visible").count()) === 0, "days to come can be checked off");
  await context.clock.setFixedTime(new Date("2027-06-02T10:00:00"));
  await page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
  expect(await soon(async () => (await page.locator(".today").count()) === 1 && (await boxes(page).count()) >= 4), "after the last week its exercises are gone");
  await context.close();
}

// By keyboard alone, and nothing moves while the page comes.
{
  const { context, page } = await device();
  await boxes(page).nth(0).check();
  await noted(page, 1);
  await page.evaluate(() => window.scrollTo(0, 0));
  await page.addInitScript(() => {
    window.shift = 0;
    new PerformanceObserver((list) => list.getEntries().forEach((one) => (window.shift += one.value))).observe({ type: "layout-shift", buffered: true });
  });
  await page.reload();
  await settled(page);
  await page.waitForTimeout(300);
  const shift = await page.evaluate(() => window.shift);
  expect(shift <= 0.02, `the page moves by ${shift.toFixed(3)} while it comes`);
  const tabTo = async (what) => {
    for (let press = 0; press < 80; press += 1) {
      if (await page.evaluate((what) => document.activeElement.matches(what), what)) return true;
      await page.keyboard.press("Tab");
    }
    defects.add("keyboard", `${what} is not reached`);
    return false;
  };
  await tabTo(".today .did-list > li:nth-child(2) .tick input");
  await page.keyboard.press("Space");
  await tabTo(".today .did-list > li:nth-child(2) .went > summary");
  await page.keyboard.press("Enter");
  await tabTo("[name=effort]");
  await page.keyboard.type("7");
  await tabTo("[name=felt]");
  await page.keyboard.type("By hand.");
  await tabTo("[type=radio]");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  await soon(async () => (await kept(page)).some((one) => one.felt === "By hand." && one.trouble === "pain"));
  const typed = (await kept(page)).find((one) => one.felt === "By hand.");
  expect(typed?.effort === 7 && typed.trouble === "pain", `by keyboard alone: ${JSON.stringify(typed)}`);
  await tabTo("#days\\.erase");
  await page.keyboard.press("Enter");
  expect(await page.evaluate(() => document.activeElement.dataset.answer === "no"), "the question does not begin at the answer that keeps all");
  await page.keyboard.press("Escape");
  expect(await page.evaluate(() => document.activeElement.id === "days.erase"), "after the question the focus is elsewhere");

  // With everything open, by axe.
  await page.evaluate(axe);
  await page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));
  for (const [width, colorScheme] of [[320, "light"], [1280, "dark"]]) {
    await page.setViewportSize({ width, height: 900 });
    await page.emulateMedia({ colorScheme });
    await settled(page);
    for (const asks of [false, true]) {
      if (asks) await page.click("#days\\.erase");
      const found = await page.evaluate(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
      for (const rule of found.violations) defects.add("axe", `${rule.id} at ${width} px: ${rule.nodes[0].html.slice(0, 120)}`);
      expect(found.passes.length > 15, "axe has hardly looked");
      if (asks) await page.keyboard.press("Escape");
    }
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(wide <= 0, `with everything open the page scrolls sideways by ${wide} px at ${width} px`);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll("main :is(button, select, summary, textarea, input[type=file], .tick, .choices label, .call a)")]
        .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 43.99)
        .map((one) => `${one.tagName} ${one.id || one.textContent.trim().slice(0, 20)} ${one.getBoundingClientRect().height}`),
    );
    expect(small.length === 0, `too small at ${width} px: ${small}`);
  }
  await context.close();
}

// Without scripts: the page says so, and has the week to print.
{
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(site.address + PAGE);
  expect((await page.locator(".paper-grid tbody tr").count()) >= 5, "without scripts there is no week to print");
  expect(await page.locator("noscript strong, .card strong").first().isVisible(), "without scripts the page does not say so");
  expect(!(await page.locator("#days\\.form").isVisible()), "without scripts there are buttons that do nothing");
  await context.close();
}

await browser.close();
await site.close();
defects.finish(looked, "looks");
