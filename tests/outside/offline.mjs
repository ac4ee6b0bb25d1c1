// Without a network: after one visit the site, its current weeks and their sheets open; what was never opened leads to
// the page that says so; a changed site is announced and shown when the reader asks, not before.

import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { launch } from "./browser.mjs";
import { Defects, pagesOf, serve, siteFolder } from "./site.mjs";

const folder = mkdtempSync(join(tmpdir(), "offline-"));
cpSync(siteFolder(), folder, { recursive: true });
const files = JSON.parse(/self\.site = (\{.*\});/.exec(readFileSync(join(folder, "worker.js"), "utf8"))[1]).files;
const defects = new Defects("offline");
let looked = 0;
const expect = (holds, what) => {
  looked += 1;
  if (!holds) defects.add("offline", what);
};

const browser = await launch();
const context = await browser.newContext();
const site = await serve(folder);
const page = await context.newPage();
const mistakes = [];
page.on("pageerror", (error) => mistakes.push(error.message));

// One visit, until all of it is kept.
await page.goto(site.address);
await page.waitForFunction(() => navigator.serviceWorker.ready.then(() => navigator.serviceWorker.controller !== null));
await page.goto(`${site.address}saved.html`);
await page.waitForSelector("#page\\.kept .yes:not([hidden])");
const [opened, unopened] = pagesOf(folder).filter((path) => path.startsWith("exercises/") && !files.includes(path));
await page.goto(site.address + opened);

await context.setOffline(true);
await page.goto(`${site.address}index.html`);
expect((await page.title()).length > 0 && (await page.locator("h1").count()) === 1, "the first page does not open");
expect(await page.evaluate(() => getComputedStyle(document.body).fontFamily.includes("Atkinson")), "the look is not kept");
for (const path of files.filter((path) => path.endsWith(".html"))) {
  await page.goto(site.address + path);
  expect((await page.locator("h1").count()) === 1 && page.url().endsWith(path), `${path} does not open`);
}
for (const path of files.filter((path) => path.endsWith(".pdf"))) {
  // A page may not fetch anything itself, so the kept file is looked at where it is kept.
  const start = await page.evaluate(async (address) => {
    const kept = await caches.match(address);
    return kept ? String.fromCharCode(...new Uint8Array(await kept.arrayBuffer()).slice(0, 5)) : "nothing";
  }, site.address + path);
  expect(start === "%PDF-", `${path} is not kept: ${start}`);
}
expect(files.some((path) => path.endsWith(".pdf")) && files.some((path) => /series\/.*week-.*\.html$/.test(path)), "no week or no sheet is kept");
await page.goto(site.address + unopened);
expect(page.url().includes("saved.html#page.not-here"), `what was never opened leads to ${page.url()}`);
await page.goto(site.address + opened);
expect((await page.locator("h1").count()) === 1, "a page that was opened before does not open");

// A changed page is announced, and shown when the reader asks.
await context.setOffline(false);
const home = join(folder, "index.html");
writeFileSync(home, readFileSync(home, "utf8").replace("</h1>", " (changed)</h1>"));
const worker = join(folder, "worker.js");
writeFileSync(worker, readFileSync(worker, "utf8").replace(/"version":"\w+"/, '"version":"changed"'));
await page.goto(site.address);
expect(!(await page.locator("h1").textContent()).includes("changed"), "a new version is forced on the reader");
const notice = page.locator("#page\\.newer button");
await page.evaluate(() => navigator.serviceWorker.getRegistration().then((registration) => registration.update()));
await notice.waitFor({ state: "visible", timeout: 20_000 }).catch(() => {});
expect(await notice.isVisible(), "a new version is not announced");
await Promise.all([page.waitForEvent("load"), notice.click()]).catch(() => {});
expect((await page.locator("h1").textContent()).includes("changed"), "the new version does not come when the reader asks");

// And off the device again.
await page.goto(`${site.address}saved.html`);
await page.locator("#page\\.kept button").click();
await page.waitForSelector("#page\\.kept .no:not([hidden])");
expect(await page.evaluate(() => caches.keys().then((names) => names.length === 0)), "something stays on the device");
for (const mistake of mistakes) defects.add("script", mistake);

await browser.close();
await site.close();
rmSync(folder, { recursive: true });
defects.finish(looked, "looks");
