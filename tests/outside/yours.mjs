// What is true for the reader: for many people, the form that each page looks up and shows is the one that the program
// chooses (`tests/yours.rs` writes it down). Then what she says is kept, shown, changed and cleared, in several tabs,
// where a browser keeps nothing, by keyboard alone, and axe finds nothing.
//
// usage: node yours.mjs FOLDER CHOICES

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

import { eachPage, launch, settled } from "./browser.mjs";
import { Defects, serve, siteFolder } from "./site.mjs";

const folder = siteFolder();
const { people } = JSON.parse(readFileSync(process.argv[3], "utf8"));
const defects = new Defects("yours", process.argv[4]);
const site = await serve(folder);
const browser = await launch();
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let looked = 0;

const QUESTIONS = "for-you.html";
const LIBRARY = "exercises/index.html";
const exercises = Object.keys(people[0].alone);
const weeks = Object.keys(people[0].weeks);

// --- The forms. In the page itself: says what is true for each of the people, and answers the first differences.

/** What the script finds, with nothing to show it in. */
function compare({ people, asked }) {
  document.querySelectorAll(".yours-place, .yours-card").forEach((place) => place.remove());
  const text = (form) => form && `${form.exercise} ${form.variation ?? "as it stands"}`;
  const wrong = [];
  for (const [at, person] of people.entries()) {
    yours.set(person);
    for (const id of asked) {
      const [wanted, found] = [person.forms[id], yours.formOf(id)];
      if (found === undefined || text(found) !== text(wanted))
        wrong.push(`person ${at}: ${id} is ${text(found)}, the program chooses ${text(wanted)}`);
    }
    if (wrong.length > 20) break;
  }
  yours.clear();
  return wrong;
}

/** What the page shows of it. */
function look({ people, asked }) {
  const { have, precautions } = JSON.parse(document.getElementById("yours.table").textContent);
  const all = have.map((at) => precautions[at][0]);
  const wrong = [];
  for (const person of people) {
    yours.set(person);
    for (const id of asked) {
      const wanted = person.forms[id];
      const asItStands = wanted?.exercise === id && wanted.variation === null;
      const tell = (what) => wrong.push(`for ${person.precautions.join(", ")}: ${id} ${what}`);
      const place = document.querySelector(`.yours-place[data-exercise="${id}"]`);
      const cards = document.querySelectorAll(`.yours-card[data-exercise="${id}"]`);
      if (!place && !cards.length) tell("has no place");
      for (const card of cards) {
        const right = wanted === null ? /^Not for you/ : asItStands ? /^For you, as it is shown$/ : /^For you: /;
        const said = card.textContent;
        if (card.hidden || !right.test(said) || (wanted && !asItStands && !said.endsWith(wanted.title))) tell(`has a card that says "${said}"`);
      }
      if (!place) continue;
      const headings = [...place.querySelectorAll(".yours-form > :is(h2, h3)")].map((one) => one.textContent);
      const heading = wanted === null ? undefined : asItStands ? "For you" : `For you: ${wanted.title}`;
      if (headings[0] !== heading) tell(`shows "${headings[0]}"`);
      if (Boolean(place.querySelector(".yours-not")) === asItStands) tell("says wrongly whether it is hers as it is shown");
      const steps = [...place.closest("article").querySelectorAll(".section.move")].some((one) => one.checkVisibility());
      if (steps !== asItStands) tell(`${steps ? "shows" : "hides"} its own steps`);
      if (wanted && !asItStands && !place.querySelector(".yours-form ol li")) tell("shows no steps of her form");
      const strange = [...place.querySelectorAll(".yours-form [data-for]")].filter(({ dataset }) => {
        const who = dataset.for.split(" ").filter(Boolean);
        return who.length && !who.some((one) => yours.has(one) || all.includes(one));
      });
      if (strange.length) tell("shows a caution for others");
      const doses = place.querySelectorAll(".yours-form [data-when]").length;
      if (doses > 1 || (wanted && !asItStands && doses === 0)) tell(`shows ${doses} doses`);
    }
  }
  yours.clear();
  return wrong;
}

/** The people with the forms that the program chooses on a page. */
const on = (path, asked, list = people) =>
  list.map(({ precautions, things, alone, weeks }) => {
    const forms = weeks[path] ?? alone;
    return { precautions, things, forms: Object.fromEntries(asked.map((id) => [id, forms[id]])) };
  });

const tasks = [
  { path: LIBRARY, asked: exercises },
  ...weeks.map((path) => ({ path, asked: Object.keys(people[0].weeks[path]) })),
  ...exercises.map((id) => ({ path: `exercises/${id}.html`, asked: [id] })),
];
// To draw every page for everybody would take an hour.
const FEW = 12;
await eachPage(browser, tasks, { viewport: { width: 390, height: 844 } }, async (page, { path, asked }) => {
  await page.goto(site.address + path);
  const few = people.filter((_, at) => at % Math.ceil(people.length / FEW) === 0);
  const wrong = await page.evaluate(look, { people: on(path, asked, few), asked });
  wrong.push(...(await page.evaluate(compare, { people: on(path, asked), asked })));
  looked += people.length * asked.length;
  for (const line of wrong) defects.add(path, line);
});

// The comparison itself: with a table or a script that is not as it should be, it finds something.
const table = (change) => (html) =>
  html.replace(/(id="yours.table">)([^]*?)(<\/script>)/, (_, open, json, close) => {
    const table = JSON.parse(json);
    change(table);
    return open + JSON.stringify(table).replaceAll("<", "\\u003c") + close;
  });
const BROKEN = [
  ["nobody is refused anything", table((t) => t.forms.forEach((form) => { form.no = []; }))],
  ["one refusal less of each form", table((t) => t.forms.forEach((form) => form.no.splice(0, 1)))],
  ["no caution sends anybody", table((t) => Object.values(t.asked).forEach((rungs) => rungs.forEach((rung) => { rung[0] = []; })))],
  ["nothing is needed", table((t) => t.forms.forEach((form) => { delete form.needs; }))],
  ["the last forms first", table((t) => Object.values(t.asked).forEach((rungs) => rungs.forEach((rung) => rung[1].reverse())))],
];
{
  // A device that keeps the site would show the page that it has kept.
  const context = await browser.newContext({ serviceWorkers: "block" });
  const page = await context.newPage();
  for (const [what, change] of BROKEN) {
    await page.route(`**/${LIBRARY}`, async (route) => {
      const response = await route.fetch();
      await route.fulfill({ response, body: change(await response.text()) });
    });
    await page.goto(site.address + LIBRARY);
    const wrong = await page.evaluate(compare, { people: on(LIBRARY, exercises), asked: exercises });
    if (!wrong.length) defects.add("the comparison", `finds nothing although ${what}`);
    await page.unroute(`**/${LIBRARY}`);
  }
  await context.close();
}

// --- She says what is true for her, by keyboard alone.

const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
const page = await context.newPage();
const expect = (path, what, found, wanted) => {
  looked += 1;
  if (JSON.stringify(found) !== JSON.stringify(wanted))
    defects.add(path, `${what}: found ${JSON.stringify(found)}, expected ${JSON.stringify(wanted)}`);
};
const focused = () => page.evaluate(() => document.activeElement.textContent.trim().replace(/\s+/g, " ") || document.activeElement.value);
const told = (of = page) => of.textContent("[id='yours.told']");
const chip = (of = page) => of.evaluate(() => { const one = document.getElementById("yours.chip"); return one.hidden ? null : one.querySelector("a").textContent; });

/** Presses Tab until the element is reached; the page may not keep the focus from it. */
async function tabTo(selector) {
  for (let tries = 0; tries < 80; tries += 1) {
    await page.keyboard.press("Tab");
    if (await page.evaluate((selector) => document.activeElement.matches(selector), selector)) return true;
  }
  defects.add(QUESTIONS, `${selector} is not reached by Tab`);
  return false;
}

await page.goto(site.address + QUESTIONS);
await settled(page);
expect(QUESTIONS, "the chip before anything is said", await chip(), null);
await tabTo('[name="precaution"][value="spine-fracture"]');
await page.keyboard.press("Space");
const screens = await page.locator("[data-screen]").count();
for (let at = 1; at < screens; at += 1) {
  await tabTo('[data-do="next"]');
  await page.keyboard.press("Enter");
  expect(QUESTIONS, "the focus on the next screen", (await focused()).startsWith(`Part ${at + 1} of ${screens}:`), true);
  expect(QUESTIONS, "screens in sight", await page.locator("[data-screen]:visible").count(), 1);
  if (await page.locator('[name="precaution"][value="no-floor"]').isVisible()) {
    await tabTo('[name="precaution"][value="no-floor"]');
    await page.keyboard.press("Space");
  }
}
await tabTo('[data-do="done"]');
await page.keyboard.press("Enter");
expect(QUESTIONS, "what is kept", await page.evaluate(() => [yours.all(), yours.things()]), [["spine-fracture", "no-floor"], null]);
expect(QUESTIONS, "the chip", await chip(), "For you: 2 things");
expect(QUESTIONS, "what is told", await told(), "Kept. Each exercise now shows first the way that is for you.");
expect(QUESTIONS, "the focus at the end", await focused(), "What you have checked");

// --- Another tab, and back: kept, announced once in the tab that did not do it.
const other = await context.newPage();
await other.goto(`${site.address}exercises/heel-drop.html`);
await settled(other);
expect("another tab", "the chip", await chip(other), "For you: 2 things");
expect("another tab", "nothing is told when it opens", await told(other), "");
await other.evaluate(() => {
  globalThis.told = 0;
  globalThis.events = 0;
  new MutationObserver(() => { globalThis.told += 1; }).observe(document.getElementById("yours.told"), { childList: true, characterData: true, subtree: true });
  document.addEventListener("yours", () => { globalThis.events += 1; });
});
await page.evaluate(() => yours.set({ precautions: ["hip-replacement"], things: [] }));
await other.waitForFunction(() => globalThis.events > 0);
expect("another tab", "told and dispatched once", await other.evaluate(() => [globalThis.told, globalThis.events]), [1, 1]);
expect("another tab", "the chip follows", await chip(other), "For you: 1 thing");
expect("another tab", "nothing at home", await other.evaluate(() => yours.things()), []);

// --- One tap clears, one tap brings it back; the focus goes along.
await other.bringToFront();
await other.click("[id='yours.chip'] .clear");
expect("clearing", "what is kept", await other.evaluate(() => [yours.all(), Object.keys(localStorage).filter((key) => key.includes("yours"))]), [[], []]);
expect("clearing", "said nothing", await other.evaluate(() => yours.formOf("heel-drop") === undefined), true);
expect("clearing", "the focus", await other.evaluate(() => document.activeElement.textContent), "Bring them back");
expect("clearing", "every form is there", await other.evaluate(() => [document.querySelector("article").className.includes("not-hers"), document.querySelector(".yours-form").hidden]), [false, true]);
await other.keyboard.press("Enter");
expect("bringing back", "what is kept", await other.evaluate(() => yours.all()), ["hip-replacement"]);
expect("bringing back", "the chip", await chip(other), "For you: 1 thing");
await other.close();

// --- A list of another version: what is not known any more is not passed over.
await page.evaluate(() => yours.set({ precautions: ["of-former-times"], things: null }));
await page.goto(site.address + LIBRARY);
expect(LIBRARY, "forms for somebody of whom something is not known", await page.evaluate((ids) => ids.filter((id) => yours.formOf(id) !== null), exercises), []);
await page.goto(site.address + QUESTIONS);
expect(QUESTIONS, "says that something is not on the list", await page.locator(".old").isVisible(), true);
for (const broken of ["{", "[]", '{"precautions":3}', '{"precautions":[{}]}', "null"]) {
  await page.evaluate((broken) => { for (const key of Object.keys(localStorage)) localStorage.setItem(key, broken); }, broken);
  await page.reload();
  expect(QUESTIONS, `with ${broken} in store nothing is said`, await chip(), null);
}

// --- Only what suits her, in the library.
await page.evaluate(() => yours.set({ precautions: ["spine-fracture", "no-floor", "unsteady", "shoulder-pain"], things: [] }));
await page.goto(site.address + LIBRARY);
const suits = await page.evaluate((ids) => ids.filter((id) => yours.formOf(id)), exercises);
await page.check('#filter [name="mine"]');
await page.waitForURL((address) => address.searchParams.has("mine"), { timeout: 20000 }).catch(() => {});
const seen = () => page.evaluate(() => [...document.querySelectorAll("#entries > li")].filter((one) => one.checkVisibility()).map((one) => one.querySelector(".yours-card").dataset.exercise).sort());
expect(LIBRARY, "only what suits her", await seen(), [...suits].sort());
expect(LIBRARY, "some of them", suits.length > 0 && suits.length < exercises.length, true);
expect(LIBRARY, "the address keeps it", new URL(page.url()).searchParams.get("mine"), "1");
await page.reload();
expect(LIBRARY, "opened again", await seen(), [...suits].sort());
await page.evaluate(() => yours.clear());
expect(LIBRARY, "all of them when she has cleared it", (await seen()).length, exercises.length);
expect(LIBRARY, "the choice is gone", await page.locator('#filter [name="mine"]').isVisible(), false);
await context.close();

// --- A browser that keeps nothing says so.
{
  const context = await browser.newContext();
  await context.addInitScript(() => {
    Object.defineProperty(window, "localStorage", { get() { throw new DOMException("refused", "SecurityError"); } });
  });
  const page = await context.newPage();
  await page.goto(site.address + QUESTIONS);
  for (let at = 1; at < screens; at += 1) await page.click('[data-do="next"]');
  await page.click('[data-do="done"]');
  expect(QUESTIONS, "says that nothing is kept", await page.locator("[id='yours.refused']").isVisible(), true);
  expect(QUESTIONS, "tells it", (await told(page)).startsWith("This browser does not keep anything"), true);
  expect(QUESTIONS, "no chip", await page.locator("[id='yours.chip']").isVisible(), false);
  await context.close();
}

// --- Without scripts every form is in sight, with whom it is not for.
{
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(`${site.address}exercises/heel-drop.html`);
  await page.evaluate(() => 0).catch(() => {});
  expect("heel drop without scripts", "the form for her is hidden", await page.locator(".yours-form").isVisible(), false);
  expect("heel drop without scripts", "the steps", await page.locator(".section.move ol").isVisible(), true);
  await page.locator(".exercise-body > details > summary").click();
  expect("heel drop without scripts", "whom it is not for", await page.locator(".yours-not-for").isVisible(), true);
  expect("heel drop without scripts", "what the other way leaves out", await page.getByText(/^It leaves out /).count() > 0, true);
  await page.goto(site.address + QUESTIONS);
  expect(QUESTIONS, "says what it needs", (await page.locator("main").innerText()).includes("may run scripts"), true);
  await context.close();
}

// --- axe, with choices made: a variation, another exercise, none, and what needs asking.
{
  const RULES = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, bypassCSP: true });
  const page = await context.newPage();
  const kind = (wanted) => people.findIndex((person) => Object.entries(person.alone).some(([id, form]) => wanted(id, form)));
  const sets = [
    kind((id, form) => form === null),
    kind((id, form) => form && form.exercise !== id),
    kind((id, form) => form && form.variation !== null),
  ];
  for (const at of sets) {
    const person = people[at];
    const ids = exercises.filter((id) => {
      const form = person.alone[id];
      return !form || form.exercise !== id || form.variation !== null;
    });
    for (const path of [QUESTIONS, LIBRARY, weeks[Math.floor(weeks.length / 2)], ...ids.slice(0, 3).map((id) => `exercises/${id}.html`)]) {
      await page.goto(site.address + path);
      await page.evaluate(({ precautions, things }) => yours.set({ precautions, things }), person);
      for (const scheme of ["light", "dark"]) {
        await page.emulateMedia({ colorScheme: scheme });
        await settled(page);
        await page.evaluate(axe);
        const { violations } = await page.evaluate((values) => globalThis.axe.run({ runOnly: { type: "tag", values } }), RULES);
        looked += 1;
        for (const { id, nodes } of violations) defects.add(`${path} for person ${at}, ${scheme}`, `${id}: ${nodes[0].html.slice(0, 120)}`);
      }
      // Narrow, and with letters of twice the size, nothing leaves the page.
      for (const [width, size] of [[320, "100%"], [390, "200%"]]) {
        await page.setViewportSize({ width, height: 844 });
        await page.evaluate((size) => { document.documentElement.style.fontSize = size; }, size);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        if (wide > width) defects.add(`${path} for person ${at}`, `is ${wide} px wide at ${width} px with letters of ${size}`);
      }
      await page.setViewportSize({ width: 390, height: 844 });
    }
  }
  await context.close();
}

await browser.close();
await site.close();
defects.finish(looked, "looks");
