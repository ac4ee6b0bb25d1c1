// Practice now in a browser whose clock is ours: whole weeks in seconds. What it says, counts and shows is worked out here
// a second time from the parts that the page carries, at the planned speed, slower and faster, with every button, a page
// that nobody looks at, a device without a voice and a screen that may not be kept awake. What it hands over to be written
// down is what was done.

import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

import { launch, settled } from "./browser.mjs";
import { carried as carriedHere, compareSaid, compareShown, EVENING, install, planned, takeTime, wantAll } from "./practice_plan.mjs";
import { Defects, pagesOf, serve, siteFolder } from "./site.mjs";

const SPEEDS = [0.6, 0.8, 1, 1.2];
const folder = siteFolder();
const defects = new Defects("practice");
const site = await serve(folder);
const browser = await launch();
const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let looked = 0;
const expect = (where, holds, what) => {
  looked += 1;
  if (!holds) defects.add(where, what);
};

/** A page whose voice, tones, lock, clock and days are ours. */
async function open(path, wishes = {}) {
  const { all = true, voice = "en-US", lock = true, days = true, yours = null, calm = true, disk = false, real = false, ...options } = wishes;
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    timezoneId: "America/New_York",
    reducedMotion: calm ? "reduce" : "no-preference",
    ...options,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(10_000);
  page.on("pageerror", (error) => defects.add(path, `script: ${error.message}`));
  page.on("request", (request) => {
    const own = disk ? request.url().startsWith("file:") : request.url().startsWith(site.address);
    if (!own) defects.add(path, `asks for ${request.url()}`);
  });
  if (!real) await page.addInitScript(takeTime, EVENING);
  await page.addInitScript(install, { voice, lock, days, yours });
  await page.goto(disk ? pathToFileURL(join(folder, path)).href : site.address + path);
  if (all) await page.evaluate(wantAll);
  await page.evaluate(() => window.record());
  return page;
}

const at = (page, name) => page.locator(`[id="practice.${name}"]`);
const press = (page, name) => at(page, name).click();
const told = (page) => page.evaluate(() => window.told);
const now = (page) => page.evaluate(() => performance.now());
const pass = (page, milliseconds) => page.evaluate((length) => window.pass(length), milliseconds);
const carried = (page) => page.evaluate(carriedHere);
const view = (page) => page.locator("#practice").getAttribute("data-view");

const clear = (page) => page.evaluate(() => {
  for (const name of ["said", "tones", "shown", "status"]) window.told[name].length = 0;
});

/** Plays an exercise that has just begun to its end, and compares all of it. */
async function playThrough(page, where, form, words, start, last, speed = 1) {
  const plan = planned(form, words, speed);
  await pass(page, plan.length + 1000);
  const { said, shown, status } = await told(page);
  compareSaid(expect, where, said, plan, start, last ? words.done_last : words.done);
  compareShown(expect, where, shown.filter((picture) => picture.at < start + plan.length), plan, start, words);
  const gaps = status.slice(1).map(({ at }, index) => at - status[index].at);
  const announced = status.map(({ text }) => text).join(" | ");
  expect(where, gaps.slice(0, -1).every((gap) => gap >= 2750), `announces too often: ${announced}`);
  expect(where, status.length >= 2, `announces nothing: ${announced}`);
  return plan;
}

async function fillIn(page, { effort = "", felt = "", trouble = "" }) {
  if (trouble) await page.locator(`input[name=trouble][value=${trouble}]`).check();
  if (effort) await at(page, "effort").selectOption(effort);
  if (felt) await at(page, "felt").fill(felt);
  await page.locator('[id="practice.keeping"] button').click();
  await page.evaluate(() => new Promise((done) => queueMicrotask(done)));
}

/** A whole week from Start to what is written down. */
async function wholeWeek(path, speed) {
  const where = `${path} at speed ${SPEEDS[speed]}`;
  const page = await open(path);
  const data = await carried(page);
  expect(where, (await view(page)) === "before", "does not begin with what comes before");
  await pass(page, 5000);
  expect(where, (await told(page)).said.length === 0, "says something before she has pressed Start");
  // The speed is remembered from the last time.
  await page.evaluate((speed) => localStorage.setItem("practice", JSON.stringify({ speed })), speed);
  await page.reload();
  await page.evaluate(wantAll);
  await page.evaluate(() => window.record());
  await press(page, "start");
  for (const [index, exercise] of data.exercises.entries()) {
    const last = index === data.exercises.length - 1;
    const form = exercise.forms[0];
    const start = await now(page);
    await playThrough(page, `${where}, ${exercise.id}`, form, data.words, start, last, SPEEDS[speed]);
    await clear(page);
    await pass(page, 20_000);
    expect(where, (await told(page)).said.length === 0, `goes on after ${exercise.id} before she has pressed Next`);
    await clear(page);
    await press(page, "onward");
  }
  expect(where, (await view(page)) === "done", "does not come to its end");
  await fillIn(page, { effort: "6", felt: " Good. ", trouble: "pain" });
  const { kept } = await told(page);
  const expected = data.exercises.map(({ forms: [form] }) => ({
    exercise: form.exercise,
    title: form.title,
    form: null,
    series: data.of.series,
    week: data.of.week,
    on: "2027-02-15",
    effort: 6,
    felt: "Good.",
    trouble: "pain",
    how: "practice",
    sets: 1 + form.parts.filter(([kind]) => kind === "rest").length,
  }));
  expect(where, same(kept, expected), `writes down ${JSON.stringify(kept)}, expected ${JSON.stringify(expected)}`);
  expect(where, (await at(page, "kept").textContent()) === data.words.kept, "does not say that it is written down");
  await page.context().close();
}

const sorted = (value) => JSON.stringify(value, (_, one) =>
  one && typeof one === "object" && !Array.isArray(one) ? Object.fromEntries(Object.entries(one).sort()) : one);
const same = (one, other) => sorted(one) === sorted(other);

const pages = pagesOf(folder);
const weeks = pages.filter((path) => path.endsWith("-practice.html"));
const alone = pages.filter((path) => path.startsWith("exercises/practice/"));
if (weeks.length === 0 || alone.length === 0) throw new Error("no page that counts");

/** The first page of one exercise whose form as it stands has such parts. */
async function pageWith(fits) {
  for (const path of alone) {
    const html = await readFile(join(folder, path), "utf8");
    const data = JSON.parse(/<script type="application\/json" id="practice.data">([^]*?)<\/script>/.exec(html)[1]);
    if (fits(data.exercises[0].forms[0], data, html)) return path;
  }
  throw new Error("no such exercise");
}
const kinds = (form) => form.parts.map(([kind]) => kind).join(" ");
const twoSets = await pageWith((form) => kinds(form) === "ready reps rest reps" && form.parts[1][3] === 0);

for (const scene of [today, buttons, unseen, quiet, stopped, forms, ends, keys, moving, still, looks]) {
  await scene().catch((error) => defects.add(scene.name, error.message));
}

// Every week as planned, one slower and one faster.
const speeds = (index) => (index === 0 ? [0, 2, 3] : index === 1 ? [1, 2] : [2]);
const runs = weeks.flatMap((path, index) => speeds(index).map((speed) => [path, speed]));
const one = async () => {
  for (let run = runs.shift(); run !== undefined; run = runs.shift()) await wholeWeek(...run);
};
await Promise.all([one(), one()]);

await browser.close();
await site.close();
defects.finish(looked, "looks at practice");

/** Pause, Go on, Back, Skip and "I am ready", slower and faster. */
async function buttons() {
  const where = `${twoSets}, buttons`;
  const page = await open(twoSets);
  const { words, exercises: [{ forms: [form] }] } = await carried(page);
  const [, [, ready], ] = [null, form.parts[0]];
  const [, count, all] = form.parts[1];
  await press(page, "start");
  await pass(page, 2000);
  await press(page, "skip");
  await clear(page);
  await pass(page, 3200);
  const texts = async () => (await told(page)).said.map(({ text }) => text);
  expect(where, same(await texts(), ["3", "2", "1", "1"]), `from "I am ready" it says ${await texts()}`);
  // Half a repetition later a pause in which nothing passes.
  await pass(page, all / count / 2);
  await press(page, "pause");
  const paused = await at(page, "number").textContent();
  await clear(page);
  await pass(page, 60_000);
  expect(where, (await texts()).length === 0, "speaks in a pause");
  expect(where, (await at(page, "number").textContent()) === paused, "counts in a pause");
  expect(where, (await at(page, "now").textContent()) === words.paused, "does not say that it pauses");
  await press(page, "pause");
  await pass(page, all / count / 2 + 200);
  expect(where, same(await texts(), ["2"]), `after a pause it says ${await texts()}`);
  // Back to the start of the set, and once more to what is before it.
  await pass(page, all / count);
  await clear(page);
  await press(page, "back");
  await pass(page, 200);
  expect(where, same(await texts(), ["1"]), `Back says ${await texts()}`);
  await press(page, "back");
  expect(where, (await at(page, "number").textContent()) === String(ready / 1000), "Back does not lead to the part before");
  // Skip the way into it, then the first set: only the second is done.
  await press(page, "skip");
  await pass(page, 3200);
  await press(page, "skip");
  await pass(page, 300);
  expect(where, (await at(page, "now").textContent()) === words.do_rest, "Skip does not lead to the rest");
  // Slower and faster while it runs: the seconds of a rest stay seconds.
  await page.locator(".practice-settings summary").click();
  await press(page, "faster");
  expect(where, await at(page, "faster").isDisabled(), "faster than the fastest is offered");
  const [, rest] = form.parts[2];
  await clear(page);
  const start = await now(page);
  await pass(page, rest + all / 1.2 + 500);
  const { said } = await told(page);
  const first = said.find(({ text }) => text === "1" && said.indexOf(said.at(-1)) > 3);
  const end = said.at(-1);
  expect(where, end.text === words.done_last, `ends with "${end.text}"`);
  expect(where, Math.abs(end.at - start - (rest + all / 1.2 - 300)) < 400, `the faster end comes after ${end.at - start} ms (${first?.at})`);
  expect(where, (await page.evaluate(() => localStorage.getItem("practice"))).includes('"speed":3'), "the speed is not remembered");
  await press(page, "onward");
  await fillIn(page, {});
  const { kept } = await told(page);
  const { sets, effort, felt, trouble, week, on } = kept[0] ?? {};
  expect(where, on === "2027-02-15", `writes down ${on}, which is not her day`);
  expect(where, same([sets, effort, felt, trouble, week], [1, null, null, null, null]), `a skipped set is written down: ${JSON.stringify(kept)}`);
  await page.context().close();
}

/** A page that nobody looks at pauses, and goes on only when she says so. */
async function unseen() {
  const where = `${twoSets}, hidden`;
  const page = await open(twoSets);
  const { words } = await carried(page);
  await press(page, "start");
  await pass(page, 5000);
  const turn = (hidden) => page.evaluate((hidden) => {
    Object.defineProperty(document, "hidden", { value: hidden, configurable: true });
    document.dispatchEvent(new Event("visibilitychange"));
  }, hidden);
  const before = await told(page);
  await turn(true);
  const number = await at(page, "number").textContent();
  await pass(page, 40_000);
  await turn(false);
  await pass(page, 5000);
  const after = await told(page);
  expect(where, after.said.length === before.said.length, "speaks to nobody");
  expect(where, (await at(page, "number").textContent()) === number, "counts while nobody looks");
  expect(where, (await at(page, "note").textContent()).includes(words.hidden), "does not say why it pauses");
  expect(where, after.locks === 1 && after.released === 1, `the screen is kept awake in a pause: ${after.locks}, ${after.released}`);
  await press(page, "pause");
  await pass(page, 300);
  expect(where, (await told(page)).locks === 2, "the screen is not kept awake after a pause");
  // A device that has slept without a word of it.
  const left = Number(await at(page, "number").textContent());
  await page.evaluate(() => window.sleep(30_000));
  await pass(page, 200);
  const now = Number(await at(page, "number").textContent());
  expect(where, left - now <= 2, `${left - now} s are counted that nobody saw`);
  await page.context().close();
}

/** No voice, no sound, no lock. */
async function quiet() {
  const where = `${twoSets}, quiet`;
  const page = await open(twoSets, { voice: null, lock: false });
  const { words, exercises: [{ forms: [form] }] } = await carried(page);
  await press(page, "start");
  await pass(page, 300);
  const note = await at(page, "note").textContent();
  expect(where, note.includes(words.no_voice), `says nothing of the missing voice: "${note}"`);
  expect(where, note.includes(words.no_lock), `says nothing of the screen: "${note}"`);
  const plan = planned(form, words);
  await pass(page, plan.length + 500);
  const { said, tones } = await told(page);
  const count = (kind) => plan.said.filter((one) => one.kind === kind).length;
  const expected = count("number") + count("last") + 2 * (count("word") + 1);
  expect(where, said.length === 0 && tones.length === expected, `${tones.length} tones, expected ${expected}; ${said.length} said`);
  await page.context().close();

  const mute = await open(twoSets);
  await press(mute, "start");
  await mute.locator(".practice-settings summary").click();
  await at(mute, "sound").uncheck();
  await clear(mute);
  await pass(mute, plan.length + 500);
  const silent = await told(mute);
  expect(where, silent.said.length === 0 && silent.tones.length === 0, "sounds although it is switched off");
  expect(where, silent.shown.length > 100, "shows nothing without sound");
  await mute.context().close();

  const voiceless = await open(twoSets);
  await press(voiceless, "start");
  await voiceless.locator(".practice-settings summary").click();
  await at(voiceless, "voice").uncheck();
  await clear(voiceless);
  await pass(voiceless, plan.length + 500);
  const tuned = await told(voiceless);
  expect(where, tuned.said.length === 0 && tuned.tones.length > 10, "speaks although the voice is switched off");
  await voiceless.context().close();
}

/** Stop is always in reach, and brings the signs with their numbers at once. */
async function stopped() {
  for (const viewport of [{ width: 320, height: 480 }, { width: 390, height: 844 }, { width: 1280, height: 700 }]) {
    const where = `${weeks[0]}, Stop at ${viewport.width} px`;
    const page = await open(weeks[0], { viewport });
    const data = await carried(page);
    const reach = async (when) => {
      for (const end of [0, 100_000]) {
        await page.evaluate((y) => scrollTo(0, y), end);
        const found = await at(page, "stop").evaluate((button) => {
          const { left, right, top, bottom } = button.getBoundingClientRect();
          const inside = left >= 0 && right <= innerWidth && top >= 0 && bottom <= innerHeight && bottom - top >= 44;
          return inside && button.contains(document.elementFromPoint((left + right) / 2, (top + bottom) / 2));
        });
        expect(where, found, `Stop is out of reach ${when}, scrolled to ${end}`);
        const call = await page.locator(".practice-call").evaluate((line) => {
          const { top, bottom } = line.getBoundingClientRect();
          return top >= -1 && bottom <= innerHeight && line.querySelector("a[href^='tel:'], strong") !== null;
        });
        expect(where, call, `the emergency number is out of sight ${when}, scrolled to ${end}`);
      }
    };
    await press(page, "start");
    await reach("before it counts");
    await pass(page, planned(data.exercises[0].forms[0], data.words).length / 2);
    await reach("while it counts");
    await clear(page);
    await press(page, "stop");
    const seen = await page.evaluate(() => {
      const { top, bottom } = document.querySelector(".practice-signs a[href^='tel:'], .practice-signs .call").getBoundingClientRect();
      return { focus: document.activeElement.textContent, call: top >= 0 && bottom <= innerHeight };
    });
    expect(where, seen.focus.length > 0 && (await at(page, "stopped").isVisible()), "Stop shows no signs");
    expect(where, seen.call, "the number to call is not on the first screen after Stop");
    await pass(page, 30_000);
    expect(where, (await told(page)).said.length === 0, "goes on after Stop");
    await press(page, "go-on");
    expect(where, (await at(page, "now").textContent()) === data.words.paused, "goes on by itself after Stop");
    await page.keyboard.press("Escape");
    expect(where, (await view(page)) === "stopped", "Escape does not stop");
    await press(page, "end");
    expect(where, (await view(page)) === "done", "nothing ends after Stop");
    await page.context().close();
  }
}

/** The form that is hers, an easier one, and what is not for her. */
async function forms() {
  const path = await pageWith((form, { exercises: [{ forms }] }) => form.easier && forms.length > 1 && forms.some(({ variation }) => variation !== null));
  const page = await open(path);
  const { words, exercises: [{ id, forms: all }] } = await carried(page);
  const where = `${path}, forms`;
  await press(page, "start");
  await pass(page, 1000);
  await press(page, "ease");
  await clear(page);
  await pass(page, 10_000);
  expect(where, (await told(page)).said.length === 0, "goes on while she looks at what is easier");
  const easier = all[all[0].easier[0]];
  await page.getByRole("button", { name: words.instead.replace("{title}", easier.title) }).first().click();
  const start = await now(page);
  await clear(page);
  const shown = await page.locator(".practice-stage h3").first().textContent();
  expect(where, shown === easier.title, `shows "${shown}" in place of "${easier.title}"`);
  const cautions = await page.locator(".practice-stage .caution").count();
  expect(where, cautions > 0, "an easier form stands there without its cautions");
  const plan = planned(easier, words);
  await pass(page, plan.length + 500);
  // What was said when it began came before the list was cleared.
  const { said } = await told(page);
  compareSaid(expect, `${where}, easier`, [{ ...plan.said[0], at: start, voice: "own" }, ...said], plan, start, words.done_last);
  await press(page, "onward");
  await fillIn(page, { trouble: "fall" });
  const { kept: [entry] } = await told(page);
  const form = easier.variation === null ? null : easier.title;
  expect(where, entry?.exercise === easier.exercise && entry.form === form && entry.trouble === "fall", `writes down ${JSON.stringify(entry)}`);
  expect(where, await at(page, "trouble").isVisible(), "a fall does not show whom to call");
  await page.context().close();

  const place = all.findIndex(({ variation }) => variation !== null);
  const hers = await open(path, { yours: { [id]: { exercise: all[place].exercise, variation: all[place].variation } } });
  const line = await hers.locator('[id="practice.list"] .hers').textContent();
  expect(where, line === words.for_you.replace("{title}", all[place].title), `the list says "${line}"`);
  await press(hers, "start");
  const title = await hers.locator(".practice-stage h3").first().textContent();
  expect(where, title === all[place].title, `counts "${title}", not the form that is hers`);
  // Nothing that is not hers is offered as easier.
  await pass(hers, 500);
  if (await at(hers, "ease").isVisible()) {
    await press(hers, "ease");
    expect(where, (await hers.locator('[id="practice.easier"] div button').count()) === 0, "offers what may not be hers");
  }
  await hers.context().close();

  const [first, second, ...rest] = (await carriedOf(weeks[0])).exercises;
  const others = Object.fromEntries(rest.map((one) => [one.id, { exercise: one.id, variation: null }]));
  const none = await open(weeks[0], { yours: { ...others, [first.id]: null, [second.id]: { exercise: second.id, variation: null } } });
  const data = await carried(none);
  const advice = await none.locator('[id="practice.list"] .hers').first().textContent();
  expect(where, advice === data.words.not_for_you, `an exercise that is not for her says "${advice}"`);
  await press(none, "start");
  const begun = await none.locator(".practice-stage h3").first().textContent();
  expect(where, begun === data.exercises[1].forms[0].title, `begins with "${begun}", which is not hers`);
  await pass(none, 3000);
  // She says it while it counts.
  await none.evaluate((id) => {
    window.given = { ...window.given, [id]: null };
    document.dispatchEvent(new Event("yours"));
  }, second.id);
  await clear(none);
  await pass(none, 60_000);
  expect(where, (await told(none)).said.length === 0, "goes on with what is no longer hers");
  await none.context().close();
  const nothing = await open(path, { yours: { [id]: null } });
  expect(where, await at(nothing, "start").isDisabled(), "starts what is not for her");
  await nothing.context().close();
}

async function carriedOf(path) {
  const page = await open(path);
  const data = await carried(page);
  await page.context().close();
  return data;
}

/** What the plan has for the day is checked; the rest says its days, and comes when she checks it. On a Monday. */
async function today() {
  for (const path of weeks) {
    const page = await open(path, { all: false });
    const data = await carried(page);
    const rows = await page.evaluate(() => [...document.getElementById("practice.list").children].map((row) => ({
      checked: row.querySelector("[type=checkbox]")?.checked ?? null,
      rests: row.querySelector(".not-today")?.checkVisibility() ?? null,
    })));
    const planned = data.exercises.map(({ days }) => (days === undefined ? null : days.includes(1)));
    const seen = rows.map(({ checked }) => checked);
    expect(path, JSON.stringify(seen) === JSON.stringify(planned), `checks ${seen}, the plan of a Monday has ${planned}`);
    expect(path, rows.every(({ checked, rests }) => rests === (checked === null ? null : !checked)), "does not say of what is not checked that it rests");
    const wanted = data.exercises.filter((_, index) => planned[index] !== false);
    if (wanted.length > 0) {
      await press(page, "start");
      const where = await page.locator('[id="practice.where"]').innerText();
      expect(path, where.includes(String(wanted.length)) || wanted.length === 1, `begins with "${where}" of ${wanted.length} exercises`);
    } else expect(path, await at(page, "start").isDisabled(), "begins on a day of rest");
    await page.context().close();
  }
}

/** Nothing to write it down with, and a device without room. */
async function ends() {
  for (const days of [false, "full"]) {
    const where = `${twoSets}, days ${days}`;
    const page = await open(twoSets, { days });
    const { words } = await carried(page);
    await press(page, "start");
    await page.keyboard.press("Escape");
    await press(page, "end");
    expect(where, (await at(page, "not-kept").isVisible()) === (days === false), "does not say whether anything is kept");
    expect(where, (await at(page, "keeping").isVisible()) === (days !== false), "offers to write down what it cannot");
    if (days === false) continue;
    await fillIn(page, {});
    expect(where, (await at(page, "kept").textContent()) === words.nothing, "writes down what was not done");
    await page.locator('[id="practice.did"] input').check();
    await fillIn(page, {});
    expect(where, (await at(page, "kept").textContent()) === words.not_kept, "says nothing of a device without room");
    await page.context().close();
  }
}

/** From Start to the end by keyboard alone. */
async function keys() {
  const where = `${twoSets}, keyboard`;
  const page = await open(twoSets);
  const focus = () => page.evaluate(() => document.activeElement.id);
  const tabTo = async (name) => {
    for (let presses = 0; presses < 40; presses += 1) {
      if ((await focus()) === `practice.${name}`) return;
      await page.keyboard.press("Tab");
    }
    expect(where, false, `${name} is not reached by Tab`);
  };
  await tabTo("start");
  await page.keyboard.press("Enter");
  expect(where, (await focus()) === "practice.where", "the focus does not follow to the stage");
  await tabTo("pause");
  await page.keyboard.press("Enter");
  expect(where, (await focus()) === "practice.pause", "the focus is lost with Pause");
  await page.keyboard.press("Space");
  for (let part = 0; part < 6 && !(await at(page, "onward").isVisible()); part += 1) {
    await tabTo("skip");
    await page.keyboard.press("Enter");
    await pass(page, 4000);
  }
  expect(where, (await focus()) === "practice.onward", "the focus does not go to Next at the end of an exercise");
  await page.keyboard.press("Enter");
  expect(where, (await view(page)) === "done", "the end is not reached by keyboard");
  await page.context().close();
}

/** The figure moves by the clock of the count, stands still in a pause, and is the still picture again afterwards. */
async function moving() {
  const path = await pageWith((form, data, html) => form.parts[1][0] === "reps" && form.parts[1][3] === 0 && html.includes("can-move"));
  const where = `${path}, movement`;
  const page = await open(path, { calm: false });
  const { exercises: [{ forms: [form] }] } = await carried(page);
  const figure = page.locator(".practice-form .form-picture").first();
  const place = () => figure.evaluate((picture) => {
    const svg = picture.querySelector(".poses > svg:last-of-type");
    return picture.classList.contains("moving") ? svg.getCurrentTime() : null;
  });
  const shapes = () => figure.evaluate((picture) => [...picture.querySelectorAll("svg path")].map((path) => {
    const { x, y, width, height } = path.getBBox();
    return [x, y, width, height].map(Math.round).join();
  }).join(" "));
  const [, count, all] = form.parts[1];
  const each = all / count;
  // A movement that ends as it has begun is its own way back.
  const returns = await figure.evaluate((picture) => [...picture.querySelectorAll("animate")].every((animation) => {
    const moments = animation.getAttribute("values").split(";");
    return moments[0] === moments.at(-1);
  }));
  await press(page, "start");
  await pass(page, 500);
  // While she gets ready it shows how it goes, in four seconds.
  const shown = await place();
  expect(where, Math.abs(shown - (returns ? 0.125 : 0.25)) < 0.1, `the figure is at ${shown} half a second after the start`);
  await press(page, "skip");
  await pass(page, 3050);
  for (const share of [0.25, 0.5, 0.75]) {
    const time = share * each;
    const expected = returns ? share : 1 - Math.abs(2 * share - 1);
    const { at: begun } = (await told(page)).said.findLast(({ text }) => text === "1");
    await pass(page, begun + time - (await now(page)));
    const found = await place();
    expect(where, found !== null && Math.abs(found - expected) < 0.12, `the figure is at ${found} after ${Math.round(time)} ms, expected ${expected}`);
  }
  await press(page, "pause");
  const halted = await place();
  const moved = await shapes();
  await pass(page, 2000);
  expect(where, (await place()) === halted, "the figure moves in a pause");
  await page.keyboard.press("Escape");
  await press(page, "end");
  await page.evaluate(() => { document.getElementById("practice.plain").hidden = false; });
  expect(where, (await page.locator(".moving").count()) === 0, "the figure is left in its movement");
  expect(where, (await shapes()) !== moved, "the figure does not move, whatever its clock says");
  await page.context().close();
  const calm = await open(path);
  await press(calm, "start");
  await press(calm, "skip");
  const poses = new Set();
  for (let look = 0; look < 40; look += 1) {
    await pass(calm, 300);
    poses.add(await calm.locator(".practice-stage .moving svg:last-of-type").evaluate((svg) => svg.getCurrentTime()));
  }
  expect(where, poses.size === 2, `a reader who wants no movement sees ${poses.size} moments of it`);
  await calm.context().close();
}

/** Without scripts, and from the disk. */
async function still() {
  const page = await (await browser.newContext({ javaScriptEnabled: false, viewport: { width: 390, height: 844 } })).newPage();
  for (const path of [weeks[0], alone[0]]) {
    await page.goto(site.address + path);
    const text = await page.locator("main").innerText();
    expect(path, !(await at(page, "start").isVisible()) && !(await at(page, "stop").isVisible()), "offers what needs a script");
    const parts = await page.locator(".practice-form .form-parts li").allTextContents();
    expect(path, parts.length >= 2 && parts.every((part) => /\d/.test(part)), `a part without its seconds: ${parts}`);
    const visible = await page.locator(".practice-asked > .practice-form .form-parts li").allInnerTexts();
    expect(path, visible.length > 0 && visible.every((part) => text.includes(part.trim())), "without scripts the parts are lost");
  }
  await page.context().close();
  const disk = await open(alone[0], { disk: true });
  await press(disk, "start");
  await pass(disk, 1000);
  expect(alone[0], (await told(disk)).said.length === 1, "does not count from the disk");
  await disk.context().close();
}

/** axe on what the other check does not come to, and no sideways scroll. */
async function looks() {
  const values = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag21aaa", "wcag22a", "wcag22aa", "wcag22aaa", "best-practice"];
  const looks = [
    { viewport: { width: 320, height: 640 }, colorScheme: "light" },
    { viewport: { width: 1280, height: 800 }, colorScheme: "dark" },
    { viewport: { width: 390, height: 844 }, content: "html { font-size: 250% !important; }" },
  ];
  for (const { content, ...look } of looks) {
    const page = await open(weeks[0], { ...look, bypassCSP: true, real: true });
    if (content) await page.addStyleTag({ content });
    await page.evaluate(axe);
    const check = async (when) => {
      await settled(page);
      const where = `${weeks[0]} at ${look.viewport.width} px${content ? " with type of 200 %" : ""}, ${when}`;
      const found = await page.evaluate((values) => window.axe.run(document, { runOnly: { type: "tag", values } }), values);
      looked += 1;
      for (const rule of found.violations) {
        for (const node of rule.nodes) defects.add(where, `${rule.id}: ${node.target.join(" ")}: ${node.failureSummary}`);
      }
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      expect(where, wide <= 0, `scrolls ${wide} px sideways`);
      const small = await page.evaluate(() => [...document.querySelectorAll("main button, main summary, main label:has(input)")]
        .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 44).map((one) => one.textContent.trim()));
      expect(where, small.length === 0, `is too small for a finger: ${small}`);
    };
    await check("before");
    await press(page, "start");
    await check("get ready");
    await press(page, "pause");
    await page.locator(".practice-settings summary").click();
    await check("paused");
    if (await at(page, "ease").isVisible()) {
      await press(page, "ease");
      await check("easier");
      await press(page, "keep");
      await press(page, "pause");
    }
    for (let part = 0; part < 40 && !(await at(page, "onward").isVisible()); part += 1) {
      await press(page, "skip");
      if (await at(page, "pause").isVisible()) await press(page, "skip");
    }
    await check("between");
    await press(page, "stop");
    await check("stopped");
    await press(page, "end");
    await page.locator("input[name=trouble][value=fall]").check();
    await check("done");
    await page.context().close();
  }
}
