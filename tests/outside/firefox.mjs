// The main path in another browser: a week counted out from Start to its end in Firefox, what it says and shows beside what
// is planned, and what was done on the page of her days; once more from the disk. Node's own WebSocket waits behind
// `--experimental-websocket` in its version 20.

import { join } from "node:path";
import { pathToFileURL } from "node:url";

import { launchFirefox } from "./firefox_browser.mjs";
import { carried, compareSaid, compareShown, EVENING, install, planned, takeTime, wantAll } from "./practice_plan.mjs";
import { Defects, pagesOf, serve, siteFolder } from "./site.mjs";

const folder = siteFolder();
const defects = new Defects("firefox");
const site = await serve(folder);
const browser = await launchFirefox({ TZ: "America/New_York" });
let looked = 0;
const expect = (where, holds, what) => {
  looked += 1;
  if (!holds) defects.add(where, what);
};
const button = (name) => `[id="practice.${name}"]`;

/** A window on a telephone whose clock, voice and lock are ours; what keeps the days is its own. */
function open(where, own) {
  const wishes = { voice: "en-US", lock: true, days: "own", yours: null };
  return browser.page({
    width: 390,
    height: 844,
    scripts: [`() => { (${takeTime})(${EVENING}); (${install})(${JSON.stringify(wishes)}); }`],
    error: (text) => defects.add(where, `script: ${text}`),
    // The browser has a font of its own in its data.
    request: (url) => expect(where, own(url) || url.startsWith("data:"), `asks for ${url}`),
  });
}

/** Counts out the first exercises of a page, all of them where no number is given. */
async function practice(page, where, many = Infinity) {
  const data = await page.evaluate(carried);
  await page.evaluate(wantAll);
  await page.evaluate(() => window.record());
  await page.press(button("start"));
  const all = data.exercises.slice(0, many);
  for (const [index, exercise] of all.entries()) {
    const form = exercise.forms[0];
    const start = await page.evaluate(() => performance.now());
    const plan = planned(form, data.words);
    const told = await page.evaluate(async (length) => {
      await window.pass(length);
      return window.told;
    }, plan.length + 1000);
    const ending = index === data.exercises.length - 1 ? data.words.done_last : data.words.done;
    const name = `${where}, ${exercise.id}`;
    compareSaid(expect, name, told.said, plan, start, ending);
    compareShown(expect, name, told.shown.filter(({ at }) => at < start + plan.length), plan, start, data.words);
    const silent = await page.evaluate(async () => {
      for (const list of ["said", "tones", "shown", "status"]) window.told[list].length = 0;
      await window.pass(20_000);
      return window.told.said.length === 0;
    });
    expect(name, silent, "goes on before she has pressed Next");
    await page.evaluate(() => {
      for (const list of ["said", "tones", "shown", "status"]) window.told[list].length = 0;
    });
    if (index < all.length - 1 || many === Infinity) await page.press(button("onward"));
  }
  return all.map(({ forms: [form] }) => form.title);
}

const path = pagesOf(folder).findLast((page) => /^series\/.*-practice\.html$/.test(page));
{
  const page = await open(path, (url) => url.startsWith(site.address));
  await page.goto(site.address + path);
  const titles = await practice(page, path);
  const view = await page.evaluate(() => document.getElementById("practice").dataset.view);
  expect(path, view === "done", `does not come to its end but to "${view}"`);
  await page.press('[id="practice.keeping"] button');
  // What keeps the days takes its own time.
  let kept = "";
  for (let turn = 0; turn < 100 && kept === ""; turn += 1) {
    await new Promise((done) => setTimeout(done, 100));
    kept = await page.evaluate(() => document.getElementById("practice.kept").textContent);
  }
  expect(path, kept !== "", "does not say that it has kept what was done");
  await page.goto(`${site.address}my-days.html`);
  const days = await page.evaluate(() => window.days.all());
  const noted = days.map(({ title, on, how }) => `${title}, ${on}, ${how}`).sort();
  const expected = titles.map((title) => `${title}, 2027-02-15, practice`).sort();
  expect("my-days.html", JSON.stringify(noted) === JSON.stringify(expected), `keeps ${noted.join("; ")}, expected ${expected.join("; ")}`);
  await page.close();
}
{
  const page = await open(`${path} from the disk`, (url) => url.startsWith("file:"));
  await page.goto(pathToFileURL(join(folder, path)).href);
  await practice(page, `${path} from the disk`, 1);
  await page.close();
}

await browser.close();
await site.close();
defects.finish(looked, "looks in Firefox");
