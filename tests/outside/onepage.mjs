// The pages of people, each in a file of its own, as a client has them: opened from the disk, without a network. Practice now
// by our clock, with what it says compared with the parts that the page carries; her days as they are written down, saved,
// erased and brought back; a second person's page on the same device, which sees nothing of them; without scripts; on paper;
// by keyboard; by axe at four widths, dark, in large letters. The folder holds the pages of people called j, m and s.

import { readFile, stat } from "node:fs/promises";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

import Ajv from "ajv/dist/2020.js";

import { launch } from "./browser.mjs";
import { Defects, pagesOf, siteFolder } from "./site.mjs";
import { install, planned, takeTime } from "./practice_plan.mjs";

/** How late a tick of the page may be, in milliseconds. */
const LATE = 30;
const MOST_BYTES = 400_000;
/** In the evening of Monday, February 15, in New York. */
const MONDAY = Date.parse("2027-02-16T02:00:00Z");
const TODAY = "2027-02-15";
const DAY = 86_400_000;
const TAGS = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag21aaa", "wcag22a", "wcag22aa", "wcag22aaa"];

const folder = siteFolder();
const pages = pagesOf(folder);
const pageOf = (name) => pages.find((path) => path.startsWith(`${name}-`)) ?? `${name} has no page`;
const [HERS, OTHERS, SPANISH] = ["j", "m", "s"].map(pageOf);
const defects = new Defects("onepage");
const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
if (!process.env.STEADYLEAF_PRACTICE_SCHEMA) {
  console.error("STEADYLEAF_PRACTICE_SCHEMA names no file: `steadyleaf schema practice` prints what it should hold");
  process.exit(2);
}
const schema = JSON.parse(await readFile(process.env.STEADYLEAF_PRACTICE_SCHEMA, "utf8"));
const valid = new Ajv({ strictTypes: false, formats: { date: true } }).compile(schema);
const browser = await launch();
let looked = 0;
const expect = (where, holds, what) => {
  looked += 1;
  if (!holds) defects.add(where, what);
};

/** A device without a network. */
const device = (options = {}) => browser.newContext({
  viewport: { width: 390, height: 844 },
  timezoneId: "America/New_York",
  reducedMotion: "reduce",
  acceptDownloads: true,
  offline: true,
  ...options,
});

/** A page from the disk of a device, whose clock, voice and lock are ours; `real` ones are those of the browser. */
async function open(context, path, { begin = MONDAY, real = false } = {}) {
  const page = await context.newPage();
  page.setDefaultTimeout(10_000);
  const own = pathToFileURL(join(folder, path)).href;
  page.on("pageerror", (error) => defects.add(path, `script: ${error.message}`));
  page.on("console", (message) => {
    if (/Content Security Policy/.test(message.text())) defects.add(path, message.text());
  });
  page.on("request", (request) => {
    const asked = request.url();
    if (asked.split("#")[0] !== own && !/^(data|blob):/.test(asked)) defects.add(path, `asks for ${asked}`);
  });
  if (!real) {
    await page.addInitScript(takeTime, begin);
    await page.addInitScript(install, { voice: "en-US", lock: true, days: "own", yours: null });
  }
  await page.goto(own);
  await soon(() => page.evaluate(() => !document.getElementById("days.form").hidden));
  return page;
}

const at = (page, name) => page.locator(`[id="practice.${name}"]`);
const press = (page, name) => at(page, name).click();
const view = (page) => page.locator("#practice").getAttribute("data-view");
const pass = (page, milliseconds) => page.evaluate((length) => window.pass(length), milliseconds);
const kept = (page) => page.evaluate(() => window.days.all());
const boxes = (page) => page.locator('[id="practice.list"] [type=checkbox]');
const checked = (page) => boxes(page).evaluateAll((all) => all.map((box) => box.checked));

/** Waits until `holds` does, and answers whether it came to. */
async function soon(holds) {
  const end = Date.now() + 8000;
  while (Date.now() < end) {
    if (await holds()) return true;
    await new Promise((done) => setTimeout(done, 50));
  }
  return false;
}

/** What the page carries: each exercise with its one form, and the words. */
const carried = (page) => page.evaluate(() => {
  const data = JSON.parse(document.getElementById("practice.data").textContent);
  const articles = [...document.querySelectorAll(".practice-form")];
  data.exercises.forEach(({ forms }, index) => {
    forms[0].title = articles[index].querySelector("h3").textContent;
    forms[0].lines = [...articles[index].querySelectorAll(".form-parts li")].map((line) => line.textContent);
  });
  return data;
});

for (const path of pages) {
  const { size } = await stat(join(folder, path));
  expect(path, size < MOST_BYTES, `has ${size} bytes, expected fewer than ${MOST_BYTES}`);
}

// Her whole practice, and what is written down of it.
const context = await device();
const page = await open(context, HERS);
const data = await carried(page);
const count = data.exercises.length;
expect(HERS, count === 5 && (await page.locator(".practice-form").count()) === 5, `has ${count} exercises, expected 5`);
expect(HERS, data.exercises.every(({ forms }) => forms.length === 1 && !forms[0].easier), "offers a form that is not hers");
expect(HERS, data.exercises.some(({ forms }) => forms[0].variation !== null), "none of the forms is a variation: this shows nothing");
expect(HERS, (await checked(page)).every(Boolean), "an exercise that is planned for Monday is not checked");
expect(HERS, (await kept(page)).length === 0, "begins with days");
await pass(page, 5000);
expect(HERS, (await page.evaluate(() => window.told.said.length)) === 0, "says something before she has pressed Start");
const before = await at(page, "before").innerText();
expect(HERS, before.indexOf("Before you start") < before.indexOf("Start", before.indexOf("Stop at once")), "Start stands before what comes before");

await press(page, "start");
for (const [index, { forms: [form] }] of data.exercises.entries()) {
  const start = await page.evaluate(() => performance.now());
  const plan = planned(form, data.words);
  await pass(page, plan.length + 1000);
  const said = await page.evaluate(() => window.told.said.splice(0));
  const ending = index === count - 1 ? data.words.done_last : data.words.done;
  const wanted = [...plan.said, { at: plan.length, text: ending }];
  const where = `${HERS}, ${form.title}`;
  expect(where, said.length === wanted.length, `says ${said.length} things, expected ${wanted.length}`);
  said.forEach((own, place) => {
    const late = own.at - start - (wanted[place]?.at ?? 0);
    expect(where, own.text === wanted[place]?.text, `says "${own.text}" in place of "${wanted[place]?.text}"`);
    expect(where, late > -1 && late < LATE, `says "${own.text}" ${Math.round(late)} ms late`);
  });
  expect(where, await at(page, "ease").isHidden(), "offers an easier way");
  await pass(page, 20_000);
  await page.evaluate(() => window.told.said.splice(0));
  await press(page, "onward");
}
expect(HERS, (await view(page)) === "done", "does not come to its end");
expect(HERS, !(await page.locator('[id="own.days"]').isVisible()), "more than the end is seen at the end");
await at(page, "effort").selectOption("5");
await page.locator('[id="practice.keeping"] button').click();
await soon(async () => (await kept(page)).length === count);
const entries = await kept(page);
const expected = data.exercises.map(({ forms: [form] }) => ({
  exercise: form.exercise,
  title: form.title,
  form: form.variation === null ? null : form.title,
  sets: 1 + form.parts.filter(([kind]) => kind === "rest").length,
  on: TODAY,
  effort: 5,
  how: "practice",
}));
const brief = (all) => all.map(({ exercise, title, form, sets, on, effort, how }) => JSON.stringify({ exercise, title, form, sets, on, effort, how })).sort().join("\n");
expect(HERS, brief(entries) === brief(expected), `wrote down ${brief(entries)}\nexpected ${brief(expected)}`);
await press(page, "leave");
expect(HERS, (await view(page)) === "before" && (await page.locator('[id="own.days"]').isVisible()), "does not come back to the page");
const ticked = () => page.locator(".day-list > .today .tick input").evaluateAll((all) => all.map((box) => box.checked));
expect(HERS, await soon(async () => (await ticked()).length === count && (await ticked()).every(Boolean)), "My days does not show what was done");
const summaries = await page.locator(".day-list > .today .went > summary").allInnerTexts();
expect(HERS, summaries.length === count && summaries.every((one) => one.includes("effort 5")), `My days says ${summaries}`);

// Saved by the program's schema, erased, brought back.
const download = page.waitForEvent("download");
await page.click('[id="days.save"]');
const text = await readFile(await (await download).path(), "utf8");
expect(HERS, valid(JSON.parse(text)), `the file breaks the schema: ${JSON.stringify(valid.errors)}`);
await page.click('[id="days.erase"]');
await page.click("[data-answer=yes]");
expect(HERS, await soon(async () => (await kept(page)).length === 0), "not everything is erased");
await page.setInputFiles('[id="days.file"]', { name: "my-days.json", mimeType: "application/json", buffer: Buffer.from(text) });
expect(HERS, await soon(async () => JSON.stringify(await kept(page)) === JSON.stringify(entries)), "what is brought back differs from what was saved");
const varied = data.exercises.findIndex(({ forms: [form] }) => form.variation !== null);
const box = page.locator(".day-list > .today .tick input").nth(varied);
await box.uncheck();
await page.click("[data-answer=yes]");
await soon(async () => (await kept(page)).length === count - 1);
await box.check();
await soon(async () => (await kept(page)).length === count);
const byHand = (await kept(page)).find(({ how }) => how === "ticked");
const { title } = data.exercises[varied].forms[0];
expect(HERS, byHand?.title === title && byHand.form === title, `checked off as ${JSON.stringify(byHand)}`);

// Another person's page on the same device.
const other = await open(context, OTHERS);
expect(OTHERS, (await kept(other)).length === 0, "sees the days of somebody else");
const days = (await carried(other)).exercises.map((exercise) => exercise.days);
expect(OTHERS, days.some((list) => !list.includes(1)), "everything is planned for Monday: this shows nothing");
expect(OTHERS, JSON.stringify(await checked(other)) === JSON.stringify(days.map((list) => list.includes(1))), "what is checked is not what is planned for today");
const rests = await other.locator(".not-today").evaluateAll((all) => all.map((line) => !line.hidden));
expect(OTHERS, JSON.stringify(rests) === JSON.stringify(days.map((list) => !list.includes(1))), "a day of rest is not said");
await other.locator(".day-list > .today .tick input").first().check();
await soon(async () => (await kept(other)).length === 1);
const databases = (await other.evaluate(() => indexedDB.databases())).map(({ name }) => name);
expect(OTHERS, databases.length === 2 && !databases.includes("steadyleaf days"), `the device has ${databases}`);
expect(OTHERS, databases.every((name) => /^steadyleaf days [0-9a-f]{16}$/.test(name)), `the days are kept under ${databases}`);
await other.close();
const again = await open(context, HERS);
expect(HERS, (await kept(again)).length === count, "a new visit does not have her days");
await again.close();

// The next day is a day of rest: nothing is checked, and Start waits until she checks something herself.
const tuesday = await open(context, HERS, { begin: MONDAY + DAY });
expect(HERS, (await checked(tuesday)).every((one) => !one) && (await at(tuesday, "start").isDisabled()), "Start on a day of rest");
await boxes(tuesday).nth(1).check();
expect(HERS, await at(tuesday, "start").isEnabled(), "what she checks herself cannot be started");
await press(tuesday, "start");
expect(HERS, (await tuesday.locator(".practice-stage h3").first().innerText()) === data.exercises[1].forms[0].title, "another exercise than the one that she checked begins");
// A week later the same is asked, under no name of a week.
await tuesday.close();
const later = await open(context, HERS, { begin: MONDAY + 14 * DAY });
expect(HERS, (await later.locator(".day-list > .today .tick input").count()) === count, "after its week the page asks nothing");
expect(HERS, !(await later.locator('[id="days.week"]').innerText()).includes("Week 7"), "after its week the page still says that it is this one");
await later.close();
// She may begin before its first day.
const early = await open(context, HERS, { begin: MONDAY - 7 * DAY });
expect(HERS, (await early.locator(".day-list > .today .tick input").count()) === count, "before its week the page asks nothing");
await early.close();
await context.close();

// Keyboard alone: to Start, and from the count to the signs.
{
  const context = await device();
  const page = await open(context, HERS);
  for (let turn = 0; turn < 40; turn += 1) {
    await page.keyboard.press("Tab");
    if ((await page.evaluate(() => document.activeElement.id)) === "practice.start") break;
  }
  await page.keyboard.press("Enter");
  expect(HERS, (await view(page)) === "stage", "cannot be started by keyboard");
  await page.keyboard.press("Escape");
  expect(HERS, (await view(page)) === "stopped" && (await at(page, "signs").isVisible()), "Escape does not lead to the signs to stop");
  await context.close();
}

// Without scripts.
{
  const context = await device({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(pathToFileURL(join(folder, HERS)).href);
  expect(HERS, (await page.locator(".practice-form:visible").count()) === count, "without scripts an exercise is not seen");
  expect(HERS, (await page.locator(".own-paper table:visible").count()) === 1, "without scripts there is no grid");
  const buttons = await page.locator("button:visible").allInnerTexts();
  expect(HERS, buttons.length === 0, `without scripts there are buttons: ${buttons}`);
  expect(HERS, (await page.locator("[type=checkbox]:visible").count()) === 0, "without scripts there are boxes that do nothing");
  expect(HERS, (await page.locator(".practice-signs .call:visible").count()) === 1, "without scripts nobody says whom to call");
  await context.close();
}

// On paper.
{
  const context = await device();
  const page = await open(context, HERS);
  await page.emulateMedia({ media: "print" });
  expect(HERS, (await page.locator(".practice-form:visible").count()) === count, "an exercise is not printed");
  expect(HERS, await page.locator(".own-paper").isVisible(), "the grid is not printed");
  const cells = await page.locator(".own-paper tbody tr").evaluateAll((rows) => rows.map((row) => [...row.cells].slice(1).map((cell) => cell.querySelector(".box") !== null)));
  const planned_days = data.exercises.map((exercise) => [1, 2, 3, 4, 5, 6, 7].map((day) => exercise.days.includes(day)));
  expect(HERS, JSON.stringify(cells.slice(0, count)) === JSON.stringify(planned_days), "the grid has a box on a day of rest, or none on a day of hers");
  const buttons = await page.locator("button:visible, input:visible, select:visible").evaluateAll((all) => all.map((one) => one.id || one.textContent));
  expect(HERS, buttons.length === 0, `prints what only a screen can use: ${buttons}`);
  await context.close();
}

// By axe, and by the ruler.
const LOOKS = [
  { width: 320 },
  { width: 390, large: true },
  { width: 768 },
  { width: 1280 },
  { width: 390, colorScheme: "dark" },
  { width: 390, forcedColors: "active" },
];
for (const path of [HERS, SPANISH]) {
  for (const { width, large = false, ...media } of path === SPANISH ? LOOKS.slice(0, 1) : LOOKS) {
    const where = `${path} at ${width} px ${large ? "in large letters" : JSON.stringify(media)}`;
    const context = await device({ viewport: { width, height: 900 }, ...media });
    // Its own timers need a clock that goes.
    const page = await open(context, path, { real: true });
    if (large) await page.evaluate(() => (document.documentElement.style.fontSize = "250%"));
    await page.evaluate(axe);
    for (const [name, act] of [
      ["read", () => page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)))],
      ["counted", () => press(page, "start")],
      ["stopped", () => press(page, "stop")],
      ["done", () => press(page, "end")],
    ]) {
      if (name === "counted") await page.evaluate(() => document.querySelectorAll('[id="practice.list"] [type=checkbox]').forEach((box) => !box.checked && box.click()));
      await act();
      await settledFrame(page);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(`${where}, ${name}`, wide <= 0, `scrolls sideways by ${wide} px`);
      const small = await page.evaluate(() => [...document.querySelectorAll("button, summary, select, input:not([type=radio], [type=checkbox])")]
        .filter((one) => one.checkVisibility()).map((one) => [one.id || one.textContent.trim().slice(0, 30), one.getBoundingClientRect()])
        .filter(([, { width, height }]) => width < 44 || height < 44).map(([name, { width, height }]) => `${name} ${Math.round(width)} by ${Math.round(height)}`));
      expect(`${where}, ${name}`, small.length === 0, `targets under 44 px: ${small}`);
      // Where colours are the reader's own, their contrast is too; axe sees those of the page.
      const isOurs = (one) => !media.forcedColors || !one.startsWith("color-contrast");
      const violations = await page.evaluate(async (values) => {
        const { violations } = await window.axe.run(document, { runOnly: { type: "tag", values }, resultTypes: ["violations"] });
        return violations.flatMap(({ id, nodes }) => nodes.map(({ target, any, all, none }) => `${id}: ${target.join(" ")}: ${[...any, ...all, ...none].map(({ message }) => message).join(" ")}`));
      }, TAGS);
      for (const one of violations.filter(isOurs)) expect(`${where}, ${name}`, false, one);
      looked += 1;
    }
    await context.close();
  }
}

await browser.close();
defects.finish(looked, "looks at the pages of people");

/** Two frames of the screen: the page's own clock is ours. */
async function settledFrame(page) {
  await page.evaluate(() => document.fonts.ready);
  await page.waitForTimeout(60);
}
