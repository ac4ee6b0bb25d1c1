// The library of exercises: each filter alone and together, the search, the count that is announced, the address
// that keeps the choices, and the whole list without scripts. What should be found is read from the page's own
// words and data, not from the script.

import { launch, settled } from "./browser.mjs";
import { Defects, serve, siteFolder } from "./site.mjs";

const PAGE = "exercises/index.html";
const folder = siteFolder();
const defects = new Defects("library");
const site = await serve(folder);
const browser = await launch();
const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
const page = await context.newPage();
let tried = 0;

await page.goto(site.address + PAGE);
await settled(page);
const entries = await page.evaluate(() =>
  [...document.querySelectorAll("#entries > li")].map((item) => ({
    title: item.querySelector("h3").textContent.trim(),
    // With the words of its page, which nobody sees here.
    words: `${item.textContent} ${item.dataset.words ?? ""}`,
    has: { ...item.dataset },
  })),
);
const say = await page.evaluate(() => ({ ...document.getElementById("filter").dataset }));
const fields = await page.evaluate(() =>
  [...document.querySelectorAll("#filter select")].map((select) => ({
    name: select.name,
    values: [...select.options].map((option) => option.value).filter(Boolean),
  })),
);
const components = await page.evaluate(() =>
  [...document.querySelectorAll("#filter input[name=component]")].map((input) => input.value).filter(Boolean),
);
if (entries.length < 2) defects.add(PAGE, `has ${entries.length} entries`);
if (components.length !== 4) defects.add(PAGE, `offers ${components.length} components`);
for (const name of ["position", "support", "precaution"]) {
  if (!fields.some((field) => field.name === name)) defects.add(PAGE, `has no filter for ${name}`);
}

const role = await page.getAttribute("#count", "role");
if (role !== "status") defects.add(PAGE, "the count is in no live region");
await expectList("at first", entries, {});
await page.click("#filter summary");

// Every choice of every field alone.
const having = (name, value) => entries.filter((entry) => (entry.has[name] ?? "").split(" ").includes(value));
for (const value of components) {
  await page.check(`#filter input[name=component][value="${value}"]`);
  await expectList(`component ${value}`, having("component", value), { component: value });
}
await reset("after the components");
for (const { name, values } of fields) {
  for (const value of values) {
    const found = having(name, value);
    if (found.length === 0) defects.add(PAGE, `offers ${name} ${value}, which nothing has`);
    await page.selectOption(`#filter select[name=${name}]`, value);
    await expectList(`${name} ${value}`, found, { [name]: value });
  }
  await reset(`after ${name}`);
}

// Two filters at once leave what both leave.
for (const component of components) {
  for (const value of fields.find((field) => field.name === "position")?.values ?? []) {
    await page.check(`#filter input[name=component][value="${component}"]`);
    await page.selectOption("#filter select[name=position]", value);
    const both = having("component", component).filter((entry) => having("position", value).includes(entry));
    await expectList(`${component} and ${value}`, both, { component, position: value });
  }
}
await reset("after two filters");

// The search: a word of a title, in capitals, with an accent that is not there, and one that nothing has.
const word = entries[0].title.split(" ").sort((a, b) => b.length - a.length)[0].toLowerCase();
const saying = (part) => entries.filter((entry) => entry.words.toLowerCase().includes(part));
const accented = word.replace(/[aeiou]/, (vowel) => `${vowel}\u0301`).normalize("NFC");
for (const words of [word, word.toUpperCase(), accented, `  ${word} `]) {
  await page.fill("#filter-words", words);
  await expectList(`search for "${words}"`, saying(word), { words: words.trim() });
}
await page.fill("#filter-words", "xyzzy");
await expectList("search for nothing", [], { words: "xyzzy" });
await page.press("#filter-words", "Enter");
if (!page.url().includes("words=xyzzy")) defects.add(PAGE, "Enter in the search leaves the page");
await reset("after the search");

// Words that stand on the page of an exercise alone, and words that people say for them.
for (const words of ["kitchen", "osteoporosis", "stairs", "fracture"]) {
  if (folder.includes("everything")) break;
  const found = saying(words);
  if (found.length === 0) defects.add(PAGE, `finds nothing for "${words}"`);
  await page.fill("#filter-words", words);
  await expectList(`search for "${words}"`, found, { words });
}
await reset("after the words of pages");

// The green button takes nothing away, and leads to what was found.
await page.fill("#filter-words", word);
await page.click("#filter [type=submit]");
await expectList("the button that finds", saying(word), { words: word });
if ((await page.evaluate(() => document.activeElement.id)) !== "count") defects.add(PAGE, "the button does not lead to what was found");
await page.fill("#filter-words", "");
await expectList("after the button", entries, {});

// An address that somebody sends brings the same list; one with an unknown choice brings them all.
const value = fields.find((field) => field.name === "position").values[0];
await page.goto(`${site.address}${PAGE}?position=${value}`);
await expectList("an address with a choice", having("position", value), { position: value });
const chosen = await page.inputValue("#filter select[name=position]");
if (chosen !== value) defects.add(PAGE, `the form shows "${chosen}" for the address's "${value}"`);
await page.goto(`${site.address}${PAGE}?position=no-such-position`);
await expectList("an address with an unknown choice", entries, null);
await context.close();

// Without scripts: the whole list and no form that does nothing.
const bare = await browser.newContext({ javaScriptEnabled: false });
const still = await bare.newPage();
await still.goto(site.address + PAGE);
tried += 1;
if (await still.isVisible("#filter")) defects.add(PAGE, "without scripts the form is there and does nothing");
for (const entry of entries) {
  const there = still.locator("#entries > li", { has: still.getByText(entry.title, { exact: true }) });
  if (!(await there.first().isVisible())) defects.add(PAGE, `without scripts "${entry.title}" is lost`);
}
await bare.close();

await browser.close();
await site.close();
defects.finish(tried, "lists");

/** Compares the list, the count that is announced and the address with what the choices should bring. */
async function expectList(when, expected, choices) {
  tried += 1;
  const { none, one, many } = say;
  const count = expected.length === 0 ? none : expected.length === 1 ? one : many.replace("{n}", expected.length);
  // The address is the last thing that follows a choice; while somebody types, it waits for the end of the word.
  const wanted = new URLSearchParams(choices ?? {}).toString();
  const soon = Date.now() + 2000;
  while (choices && new URL(page.url()).search.slice(1) !== wanted && Date.now() < soon) await page.waitForTimeout(20);
  const now = await page.evaluate(() => ({
    count: document.getElementById("count").textContent,
    titles: [...document.querySelectorAll("#entries > li")]
      .filter((item) => item.checkVisibility())
      .map((item) => item.querySelector("h3").textContent.trim()),
  }));
  if (now.count !== count) defects.add(PAGE, `${when}: announces "${now.count}", expected "${count}"`);
  const titles = expected.map((entry) => entry.title);
  if (now.titles.join("|") !== titles.join("|")) {
    defects.add(PAGE, `${when}: shows ${now.titles.length} entries, expected ${titles.length}`);
  }
  const kept = new URL(page.url()).search.slice(1);
  if (choices && kept !== wanted) defects.add(PAGE, `${when}: the address keeps "${kept}", expected "${wanted}"`);
}

async function reset(when) {
  await page.click("#filter [type=reset]");
  await expectList(`${when}, all again`, entries, {});
}
