// The desk in a browser: from an empty folder to a week with an exercise of one's own, by keyboard and mouse, without a text
// file; who is not this browser is let in nowhere; nothing that somebody else writes meanwhile is lost.
//
// usage: node desk.mjs STEADYLEAF FOLDER (the folder is made)

import { existsSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { createRequire } from "node:module";
import { connect } from "node:net";
import { join } from "node:path";

import { launch, settled } from "./browser.mjs";
import { started } from "./preview.mjs";
import { Defects } from "./site.mjs";

const [steadyleaf, folder] = process.argv.slice(2);
const TODAY = "2026-01-14";
const SCRIPT = `<script>window.bad = 1</script>"><img src=x onerror="window.bad = 1">`;
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const defects = new Defects("desk", null);
let looked = 0;
let actions = 0;

const expect = (where, what, holds) => {
  looked += 1;
  if (!holds) defects.add(where, what);
};

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const workspace = join(folder, "mine");
const text = (name) => readFileSync(join(workspace, name), "utf8");

const desk = await started(steadyleaf, ["desk", "--no-browser", "--workspace", workspace, "--today", TODAY]);
const first = new URL(desk.address);
const base = first.origin;

// --- Who is let in

/** What the server answers to a request that is written by hand. */
const asked = (path, { method = "GET", headers = {}, body } = {}) =>
  new Promise((done) => {
    const sent = request({ agent: false, host: first.hostname, port: first.port, path, method, headers: { host: first.host, ...headers } }, (answer) => {
      let words = "";
      answer.on("data", (part) => (words += part));
      answer.on("end", () => done({ status: answer.statusCode, headers: answer.headers, words }));
    });
    sent.on("error", (error) => done({ status: 0, headers: {}, words: String(error) }));
    if (body !== undefined) sent.write(body);
    sent.end();
  });
const refused = async (what, status, path, options) => {
  const answer = await asked(path, options);
  expect("who is let in", `${what}: ${answer.status}, expected ${status}`, answer.status === status);
  expect("who is let in", `${what}: names something of the workspace`, !/First steps|heel/i.test(answer.words));
};
await refused("without a cookie, the site", 403, "/");
await refused("without a cookie, the desk", 403, "/-/desk/");
await refused("a first address that is guessed", 403, `/-/enter/${"0".repeat(64)}`);
await refused("another host", 421, first.pathname, { headers: { host: "hill.example" } });
const entered = await asked(first.pathname);
const cookie = entered.headers["set-cookie"]?.[0].split(";")[0];
expect("who is let in", `the cookie is not strict: ${entered.headers["set-cookie"]}`, /HttpOnly; SameSite=Strict/.test(entered.headers["set-cookie"]?.[0]));
await refused("another's cookie", 403, "/-/desk/", { headers: { cookie: cookie.replace(/.$/, (end) => (end === "0" ? "1" : "0")) } });
const origin = base;
const form = { "content-type": "application/x-www-form-urlencoded" };
await refused("a form without its key", 403, "/-/desk/", { method: "POST", headers: { cookie, origin, ...form }, body: "folder=x" });
await refused("a form with a key that is guessed", 403, "/-/desk/", { method: "POST", headers: { cookie, origin, ...form }, body: `key=${"0".repeat(64)}` });
await refused("another site's form", 403, "/-/desk/", { method: "POST", headers: { cookie, origin: "http://hill.example", ...form }, body: "a=b" });
await refused("another site's request", 403, "/-/desk/", { headers: { cookie, "sec-fetch-site": "cross-site" } });
await refused("a form sent to a page of the site", 405, "/index.html", { method: "POST", headers: { cookie, origin, ...form }, body: "a=b" });
await refused("a form of 50 MB", 413, "/-/desk/", { method: "POST", headers: { cookie, origin, ...form, "content-length": 50_000_000 }, body: "a=".padEnd(5_000_000, "b") });
const policy = (await asked("/-/desk/", { headers: { cookie } })).headers["content-security-policy"] ?? "";
expect("who is let in", `the policy allows more than its own: ${policy}`, policy.includes("default-src 'none'") && !policy.includes("unsafe"));

// --- From an empty folder

const browser = await launch();
const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
const page = await context.newPage();
page.on("console", (message) => {
  const isWrong = message.type() === "error" && !/404|409/.test(message.text());
  if (isWrong) defects.add(page.url().replace(base, ""), `the browser says: ${message.text()}`);
});
page.on("pageerror", (error) => defects.add(page.url().replace(base, ""), `a script fails: ${error.message}`));

const fill = async (label, value) => {
  actions += 1;
  await page.getByLabel(label, { exact: true }).first().fill(value);
};
const press = async (name) => {
  actions += 1;
  const button = page.getByRole("button", { name, exact: true }).first();
  await button.click({ timeout: 10000 }).catch(() => defects.add(page.url().replace(base, ""), `has no button ${name}`));
  await page.waitForLoadState();
  await settled(page);
};
const follow = async (name) => {
  actions += 1;
  await page.getByRole("link", { name, exact: true }).first().click({ timeout: 10000 }).catch(() => defects.add(page.url().replace(base, ""), `has no link ${name}`));
  await page.waitForLoadState();
  await settled(page);
};
const says = (what) => page.locator("main").innerText().then((words) => words.includes(what));
/** Waits until it says so: what is saved is reviewed after the answer. */
const appears = async (where, what, within = "main") => {
  looked += 1;
  const shown = page.locator(within).filter({ hasText: what }).first();
  await shown.waitFor({ timeout: 20000 }).catch(() => defects.add(where, `does not say "${what}"`));
};
/** Leaves a field, and waits until it is saved. */
const saved = async (where) => {
  await page.keyboard.press("Tab");
  await page.locator("#status").filter({ hasText: "Saved." }).waitFor({ timeout: 20000 }).catch(async () => {
    defects.add(where, `is not saved: ${await page.locator("#status").textContent()} ${await page.locator("#refused").textContent()}`);
  });
  looked += 1;
};

await page.goto(first.href);
expect("the first page", "asks for no folder", await page.getByLabel("The folder").isVisible());
expect("the first page", "proposes another folder", (await page.getByLabel("The folder").inputValue()) === workspace);
await fill("Title of your site", "Exercises at Willow Court");
await fill("Your name", "R. Educator, PT");
await fill("Your clinic", "Willow Court Clinic");
await fill("The phone for questions", "555 0111");
await fill("The emergency number where your clients live", "911");
await press("Begin");
await page.waitForURL(`${base}/-/desk/`);
expect("Today", "is not that of the new site", await says("Exercises at Willow Court"));
expect("Today", "the settings do not say her name", text("site.toml").includes('name = "R. Educator, PT"'));
await page.reload();
await appears("Today", "This week");

// --- An exercise of her own

await follow("Exercises");
await fill("What it is called", "Wall press");
await page.getByLabel("Component").selectOption("strength");
await page.getByLabel("Position").selectOption("standing");
actions += 2;
await press("Begin it");
await page.waitForURL(/exercise\/wall-press/);
const NAME = "content/exercises/wall-press.md";
expect("the new exercise", "has no file", existsSync(join(workspace, NAME)));
await fill("In a sentence", "Lean toward the wall and press away.");
await saved("the summary");
await fill("Repetitions", "8-12");
await saved("the repetitions");
await fill("Sets", "2");
await saved("the sets");
expect("the new exercise", `its file does not say what she wrote: ${text(NAME)}`, /summary = "Lean toward the wall and press away\."/.test(text(NAME)) && /reps = "8-12"/.test(text(NAME)) && /sets = 2/.test(text(NAME)));

// What cannot be read is not written, and she keeps what she typed.
const before = text(NAME);
await fill("Hold", "a while");
await page.keyboard.press("Tab");
await appears("a hold that is none", "Not saved yet", "#refused");
expect("a hold that is none", "was written", text(NAME) === before);
expect("a hold that is none", "is no longer in its field", (await page.getByLabel("Hold", { exact: true }).inputValue()) === "a while");
await page.reload();
expect("a hold that is none", "is lost with the page", (await page.getByLabel("Hold", { exact: true }).inputValue()) === "a while");
await fill("Hold", "");
await press("Save");
await appears("a hold that is none", "Saved.", "#status");

// A script in a field is shown as text.
await fill("In a sentence", SCRIPT);
await saved("a script in a field");
await page.reload();
await settled(page);
expect("a script in a field", "is not kept as it was typed", (await page.getByLabel("In a sentence").first().inputValue()) === SCRIPT);
expect("a script in a field", "runs", (await page.evaluate(() => window.bad)) === undefined);
await page.goto(`${base}/-/desk/exercises`);
expect("a script in a field", "runs in the list", (await page.evaluate(() => window.bad)) === undefined);
await page.goBack();
await fill("In a sentence", "Lean toward the wall and press away.");
await saved("the summary once more");

// Another safe way for those who have none, begun from the grid.
await page.goto(`${base}/-/desk/exercise/wall-press`);
await settled(page);

// --- Somebody else changes the same file

const theirs = text(NAME).replace('reps = "8-12"', 'reps = "10"');
writeFileSync(join(workspace, NAME), theirs);
await fill("Sets", "3");
await saved("two changes of other fields");
expect("two changes of other fields", `one is lost: ${text(NAME)}`, /^reps = "10"$/m.test(text(NAME)) && /sets = 3/.test(text(NAME)));
// The page goes on with theirs: what she saves next does not bring back what was there before.
await page.waitForFunction(() => document.getElementById("now:dose.reps").value === "10", undefined, { timeout: 20000 }).catch(() => defects.add("two changes of other fields", "the page does not show theirs"));
await fill("Days a week", "3");
await saved("a third change");
expect("two changes of other fields", `theirs is undone by the next: ${text(NAME)}`, /^reps = "10"$/m.test(text(NAME)) && /^days = 3$/m.test(text(NAME)));
writeFileSync(join(workspace, NAME), text(NAME).replace("sets = 3", "sets = 1"));
await fill("Sets", "4");
await page.keyboard.press("Tab");
await appears("two changes of one field", "Somebody else has changed the same field", "#refused");
expect("two changes of one field", "theirs is overwritten", text(NAME).includes("sets = 1"));
await appears("two changes of one field", "1", ".theirs pre");
await press("Save");
await appears("two changes of one field", "Saved.", "#status");
expect("two changes of one field", "hers is not written when she has seen both", text(NAME).includes("sets = 4"));

// --- The week

await page.goto(`${base}/-/desk/series`);
await settled(page);
await press("Make week 3");
await page.waitForURL(/week\/first-steps\/week-03/);
await fill("Title", "Two hands on the wall");
await saved("the title of the week");
await page.getByLabel("One more exercise").selectOption("wall-press");
actions += 1;
await press("Add it to the week");
const WEEK = "content/series/first-steps/week-03.md";
expect("the week", `does not have the exercise: ${text(WEEK)}`, text(WEEK).includes('id = "wall-press"'));
await press(/^Move up ?: Wall press$/);
const order = [...text(WEEK).matchAll(/id = "([^"]*)"/g)].map(([, id]) => id);
expect("the week", `Move up gives ${order}`, order.length > 1 && order.at(-2) === "wall-press");

// --- Versions

await page.goto(`${base}/-/desk/earlier/${NAME}`);
await settled(page);
expect("versions", "none is kept", (await page.locator(".versions li").count()) > 3);
await page.locator(".versions a").last().click();
await settled(page);
await press("Bring this version back");
expect("versions", "the first is not back", !text(NAME).includes("Lean toward"));
await page.goto(`${base}/-/desk/earlier/${NAME}`);
await press("Delete Wall press");
expect("versions", "it is not deleted", !existsSync(join(workspace, NAME)));
await page.goto(`${base}/-/desk/earlier/${NAME}`);
await press("Bring this version back");
expect("versions", "what was deleted is not back", existsSync(join(workspace, NAME)));

// --- Names that lead elsewhere

for (const path of ["text/../../site.toml", "text/%2e%2e/%2e%2e/etc/passwd", "earlier/..%2fsite.toml", "text/clients/j.toml", "exercise/..%2f..%2fsite", "week/first-steps/..%2fseries", "fonts/..%2fwords%2fen.ftl"]) {
  const answer = await asked(`/-/desk/${path}`, { headers: { cookie } });
  expect("names that lead elsewhere", `${path}: ${answer.status}`, answer.status === 404);
}

// --- Every page, for everybody

const PAGES = ["", "exercises", "exercise/heel-drop", "exercise/heel-drop?new=variation", "series", "week/first-steps/week-01", "series/first-steps", "settings", `text/${NAME}`, `earlier/${NAME}`, "nowhere"];
const TAGS = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "wcag22aaa", "best-practice"];
const plain = await browser.newContext({ bypassCSP: true, storageState: await context.storageState() });
const other = await plain.newPage();
for (const path of PAGES) {
  await other.goto(`${base}/-/desk/${path}`);
  await other.evaluate(axe);
  for (const [width, colorScheme] of [[1440, "light"], [1024, "light"], [768, "dark"]]) {
    await other.setViewportSize({ width, height: 900 });
    await other.emulateMedia({ colorScheme });
    await settled(other);
    looked += 1;
    const found = await other.evaluate(async (values) => {
      const results = await window.axe.run({ exclude: ["iframe"] }, { runOnly: { type: "tag", values }, resultTypes: ["violations"], iframes: false });
      return results.violations.flatMap((rule) => rule.nodes.map((node) => `${rule.id}: ${node.target.join(" ")}`));
    }, TAGS);
    for (const what of found) defects.add(`${path} at ${width} px, ${colorScheme}`, what);
    const wide = await other.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    if (wide > 0) defects.add(`${path} at ${width} px`, `scrolls sideways by ${wide} px`);
  }
}

// --- Two hundred connections that never end what they began

const slow = Array.from({ length: 200 }, () => {
  const socket = connect(Number(first.port), first.hostname);
  socket.on("error", () => {});
  socket.write(`POST /-/desk/ HTTP/1.1\r\nHost: ${first.host}\r\nCookie: ${cookie}\r\nOrigin: ${origin}\r\nContent-Length: 900\r\n\r\nke`);
  return socket;
});
await new Promise((done) => setTimeout(done, 500));
const still = await asked("/-/desk/", { headers: { cookie } });
expect("slow connections", `the desk answers ${still.status}`, still.status === 200);
for (const socket of slow) socket.destroy();

// --- Nothing is left half written

const left = readdirSync(workspace, { recursive: true }).filter((name) => String(name).includes(".begun-"));
expect("what is left", `half files: ${left}`, left.length === 0);
await browser.close();
await desk.stop();
console.log(`${actions} actions from an empty folder to a week with an exercise of her own`);
defects.finish(looked, "looks at the desk");
