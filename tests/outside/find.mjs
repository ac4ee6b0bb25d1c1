// A library of more exercises than one page holds: its first page finds each of them by words and by choices, wherever
// it stands, and keeps the choices in its address; the page of a kind filters its own. Without scripts the pages of all
// kinds together list every exercise once.

import { launch, settled } from "./browser.mjs";
import { Defects, pagesOf, serve, siteFolder } from "./site.mjs";

const PAGE = "exercises/index.html";
// As many as the page shows at once, and as a page of a kind may list.
const [STEP, MOST] = [60, 200];
const folder = siteFolder();
const defects = new Defects("find");
const site = await serve(folder);
const browser = await launch();
let tried = 0;
const expect = (holds, what) => {
  tried += 1;
  if (!holds) defects.add(PAGE, what);
};

// Every exercise as the cards of its kind's page tell it, read without scripts in the order of these pages.
const bare = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
await bare.goto(site.address + PAGE);
expect(!(await bare.isVisible("#filter")), "shows a form that does nothing without scripts");
const parts = (await hrefs(bare, "main a:not(#filter a)")).map((href) => href.replace(site.address, ""));
const made = pagesOf(folder).filter((path) => path.startsWith("exercises/list/"));
expect([...parts].sort().join() === made.join(), `leads to ${parts.join(", ")} without scripts, not to ${made.join(", ")}`);
const cards = [];
for (const path of parts) {
  await bare.goto(site.address + path);
  const here = await bare.$$eval("#entries > li", (items) =>
    items.map((item) => ({
      href: item.querySelector("h3 a").href,
      // All but the dose, which stands behind the position.
      words: ["h3", "p", ".soft", ".badge"]
        .map((part) => item.querySelector(part).textContent)
        .map((text, at) => (at === 2 ? text.split(". ")[0] : text))
        .join(" "),
      has: { ...item.dataset },
    })),
  );
  expect(here.length > 0 && here.length <= MOST, `${path} lists ${here.length} exercises`);
  cards.push(...here);
}
expect(cards.length > STEP, `${cards.length} exercises are not enough to try this`);
expect(new Set(cards.map((card) => card.href)).size === cards.length, "an exercise stands on two pages");
const pages = pagesOf(folder).filter((path) => /^exercises\/[^/]+\.html$/.test(path) && path !== PAGE);
// A site without them is one that was looked at before its exercises were made.
if (pages.length > 0) expect(pages.length === cards.length, `lists ${cards.length} of ${pages.length} exercises`);

const page = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
const errors = [];
page.on("pageerror", (error) => errors.push(error.message));
page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
await page.goto(site.address + PAGE);
await settled(page);
const say = await page.$eval("#filter", (form) => ({ ...form.dataset }));
expect((await page.getAttribute("#count", "role")) === "status", "has the count in no live region");
await expectFound("at first", [], {}, "");
await page.click("#filter summary");

// Each choice of each field alone, and two at once.
const having = (name, value) => cards.filter((card) => (card.has[name] ?? "").split(" ").includes(value));
for (const value of ["posture", "balance", "strength", "power"]) {
  await page.check(`#filter input[name=component][value="${value}"]`);
  await expectFound(`component ${value}`, having("component", value), { component: value });
}
await reset("after the components");
for (const name of ["position", "support", "equipment", "precaution"]) {
  const values = await page.$$eval(`#filter select[name=${name}] option`, (all) => all.map((one) => one.value).filter(Boolean));
  for (const value of values) {
    await page.selectOption(`#filter select[name=${name}]`, value);
    const found = having(name, value);
    expect(found.length > 0, `offers ${name} ${value}, which nothing has`);
    await expectFound(`${name} ${value}`, found, { [name]: value });
  }
  await reset(`after ${name}`);
}
await page.check('#filter input[name=component][value="power"]');
await page.selectOption("#filter select[name=position]", "standing");
const both = having("component", "power").filter((card) => having("position", "standing").includes(card));
await expectFound("two at once", both, { component: "power", position: "standing" });
await reset("after two at once");

// Words: of a title, in capitals, with an accent that is not there, in any order, and one that nothing has.
const saying = (...words) => cards.filter((card) => words.every((word) => card.words.toLowerCase().includes(word)));
for (const words of ["heel", "HEEL", "he\u00e9l", "counter heel", "standing power"]) {
  await page.fill("#filter-words", words);
  const plain = words.normalize("NFD").replace(/\p{Mn}/gu, "").toLowerCase().split(" ");
  expect(saying(...plain).length > 0, `has nothing to find for "${words}"`);
  await expectFound(`search for "${words}"`, saying(...plain), { words });
}
await page.fill("#filter-words", "xyzzy");
await expectFound("search for nothing", [], { words: "xyzzy" });
await page.press("#filter-words", "Enter");
expect(page.url().includes("words=xyzzy"), "leaves the page at Enter in the search");
await reset("after the search");

// More of them come when somebody asks, and the keyboard goes on at the first of these.
const many = having("position", "seated");
await page.selectOption("#filter select[name=position]", "seated");
await expectFound("many", many, { position: "seated" });
for (let shown = STEP; shown < many.length; shown += STEP) {
  await page.click("#more");
  const titles = await shownTitles();
  expect(titles.length === Math.min(shown + STEP, many.length), `shows ${titles.length} after "more"`);
  const focused = await page.evaluate(() => document.activeElement.textContent);
  expect(focused === titles[shown], `goes on at "${focused}"`);
}
expect(!(await page.isVisible("#more")), "offers more when all are shown");
await page.goto(`${site.address}${PAGE}?component=power&words=heel`);
const sent = having("component", "power").filter((card) => saying("heel").includes(card));
await expectFound("an address with choices", sent, { component: "power", words: "heel" });
await page.goto(`${site.address}${PAGE}?position=no-such-position`);
await expectFound("an address with an unknown choice", [], null, "");

// The page of a kind filters its own, and an address with a kind loses none of them.
await page.goto(`${site.address}${parts.at(-1)}?component=posture`);
const own = await page.$$eval("#entries > li", (items) => items.map((item) => item.checkVisibility()));
expect(own.length > 0 && own.every(Boolean), `${parts.at(-1)} hides exercises for a kind in its address`);
await page.fill("#filter-words", "xyzzy");
await page.waitForFunction(() => location.search.includes("xyzzy"));
expect(!(await page.isVisible("#entries > li")), `${parts.at(-1)} finds what is not there`);

// What suits a reader, as the pages of all kinds look it up.
for (const hers of [{ precautions: ["spine-fracture", "unsteady"], things: [] }, { precautions: ["no-floor"], things: null }]) {
  const suits = new Set();
  for (const path of parts) {
    await page.goto(site.address + path);
    const found = await page.evaluate((hers) => {
      yours.set(hers);
      const cards = [...document.querySelectorAll("#entries > li")];
      return cards.filter((card) => yours.formOf(card.querySelector(".yours-card").dataset.exercise)).map((card) => card.querySelector("a").href);
    }, hers);
    found.forEach((href) => suits.add(href));
  }
  expect(suits.size > 0, `nothing suits ${hers.precautions}`);
  await page.goto(site.address + PAGE);
  await page.check("#filter [name=mine]");
  await expectFound(`for ${hers.precautions}`, cards.filter((card) => suits.has(card.href)), { mine: "1" });
}
await page.evaluate(() => yours.clear());
await expectFound("when she has cleared it", [], {}, "");

for (const error of errors) defects.add(PAGE, error);
await browser.close();
await site.close();
defects.finish(tried, "expectations");

function hrefs(of, selector) {
  return of.$$eval(selector, (links) => links.map((link) => link.href));
}

function shownTitles() {
  return page.$$eval("#entries > li h3", (all) => all.map((one) => one.textContent.trim()));
}

/** Compares what is shown, its links, the count that is announced and the address with what the choices should bring. */
async function expectFound(when, expected, choices, announced) {
  const { none, one, many } = say;
  const told = expected.length === 0 ? none : expected.length === 1 ? one : many.replace("{n}", expected.length);
  const query = (address) => [...new URL(address).searchParams].map((pair) => pair.join("=")).sort().join("&");
  const wanted = Object.entries(choices ?? {}).map((pair) => pair.join("=")).sort().join("&");
  // The address is the last thing that follows a choice; while somebody types, it waits for the end of the word.
  const soon = Date.now() + 2000;
  while (choices && query(page.url()) !== wanted && Date.now() < soon) await page.waitForTimeout(20);
  if (choices) expect(query(page.url()) === wanted, `${when}: the address keeps "${query(page.url())}"`);
  const count = await page.textContent("#count");
  expect(count === (announced ?? told), `${when}: announces "${count}", expected "${announced ?? told}"`);
  const links = await hrefs(page, "#entries > li h3 a");
  const first = expected.slice(0, STEP).map((card) => card.href);
  expect(links.join(" ") === first.join(" "), `${when}: shows ${links.length} exercises, expected ${first.length}`);
  expect((await page.isVisible("#more")) === expected.length > STEP, `${when}: offers more, or does not`);
  expect((await page.isVisible("#entries > li")) === expected.length > 0, `${when}: hides what it found`);
}

async function reset(when) {
  await page.click("#filter [type=reset]");
  await expectFound(`${when}, all again`, [], {}, "");
}
