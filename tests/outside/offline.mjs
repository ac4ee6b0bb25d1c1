// Without a network: after one visit the site, its current weeks and their sheets open; what was never opened leads to
// the page that says so; a changed site is announced and shown when the reader asks, not before. What that page says of
// the device is what lies on it: counted, without room, refused, from a disk, taken off until it is asked for again.

import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

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
const state = (name) => page.waitForSelector(`#page\\.kept [data-state=${name}]:not([hidden])`, { timeout: 20_000 }).catch(() => defects.add("offline", `does not come to say "${name}"`));
await state("all");
const counted = await page.locator("#page\\.kept [data-count]").innerText();
const lying = await page.evaluate(async () => {
  const [name] = await caches.keys();
  return (await (await caches.open(name)).keys()).map((request) => new URL(request.url).pathname.slice(1));
});
const ends = (end) => lying.filter((path) => path.endsWith(end)).length;
expect(counted.includes(` ${ends(".html")},`) && counted.includes(` ${ends(".pdf")}.`), `says "${counted}" of ${ends(".html")} pages and ${ends(".pdf")} handouts`);
expect(files.every((path) => lying.includes(path)), "says that all is kept, and it is not");
const menu = await page.locator("header nav a").evaluateAll((links) => links.map((link) => new URL(link.href).pathname.slice(1)));
for (const path of [...menu, "my-days.html"]) expect(files.includes(path), `${path} of the menu is not kept`);
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

// And off the device again, until the reader asks.
const focus = () => page.evaluate(() => document.activeElement.closest("#page\\.kept") !== null);
const nothing = () => page.evaluate(() => caches.keys().then((names) => names.length === 0));
await page.goto(`${site.address}saved.html`);
await state("all");
await page.locator("[data-do=remove]").focus();
await page.keyboard.press("Enter");
await state("removed");
expect(await nothing(), "something stays on the device");
expect(await focus(), "after a press the focus is nowhere");
for (const path of ["index.html", opened, "saved.html"]) {
  await page.goto(site.address + path);
  await page.waitForTimeout(500);
}
expect((await nothing()) && (await page.evaluate(() => navigator.serviceWorker.getRegistration())) === undefined, "a later visit saves it all again unasked");
await state("removed");
await page.locator("[data-do=keep]").focus();
await page.keyboard.press("Enter");
await state("all");
expect(!(await nothing()) && (await focus()), "what is asked for again is not saved, or the focus is lost");

// Taken off in one window, it is not put back by another that is still open.
const second = await context.newPage();
await second.goto(`${site.address}index.html`);
await page.locator("[data-do=remove]").click();
await state("removed");
await second.evaluate(
  () =>
    new Promise((done) => {
      const picture = new Image();
      picture.onload = picture.onerror = done;
      picture.src = "style/mark.svg";
    }),
);
await second.goto(site.address + opened);
await second.waitForTimeout(300);
expect(await nothing(), "a window that was open puts something back");
await context.close();

// A device without room, and with room again.
const origin = new URL(site.address).origin;
await elsewhere({}, async (page, says, devtools) => {
  await devtools.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 400_000 });
  await page.goto(`${site.address}saved.html`);
  await says("full");
  const said = await page.locator("#page\\.kept [data-count]").innerText();
  const pages = await page.evaluate(async () => {
    const [name] = await caches.keys();
    return (await (await caches.open(name)).keys()).filter((request) => request.url.endsWith(".html")).length;
  });
  expect(said.includes(` ${pages},`) && pages > 0, `without room it says "${said}" of ${pages} pages`);
  await devtools.send("Storage.overrideQuotaForOrigin", { origin });
  await page.locator("[data-do=again]").click();
  await says("all");
});

// A network that breaks off at once: it does not wait for ever.
await elsewhere({}, async (page, says) => {
  await page.context().route("**/worker.js", (route) => route.fulfill({ status: 200, contentType: "text/javascript", body: readFileSync(worker, "utf8").replace('"files":[', '"files":["no-such-file.html",') }));
  await page.goto(`${site.address}saved.html`);
  await says("broken");
});

// A browser without workers, one that refuses them, and pages from a disk.
await elsewhere({ script: "delete Navigator.prototype.serviceWorker;" }, async (page, says) => {
  await page.goto(`${site.address}saved.html`);
  await says("cannot");
});
await elsewhere({ script: "ServiceWorkerContainer.prototype.register = () => Promise.reject(new DOMException('', 'SecurityError'));" }, async (page, says) => {
  await page.goto(`${site.address}saved.html`);
  await says("refused");
});
await elsewhere({}, async (page, says) => {
  await page.goto(pathToFileURL(join(folder, "saved.html")).href);
  await says("file");
});
for (const mistake of mistakes) defects.add("script", mistake);

/** Another device, and what its page is waited for to say. */
async function elsewhere({ script }, work) {
  const context = await browser.newContext();
  if (script) await context.addInitScript(script);
  const page = await context.newPage();
  page.on("pageerror", (error) => mistakes.push(error.message));
  const says = (name) =>
    page.waitForSelector(`#page\\.kept [data-state=${name}]:not([hidden])`, { timeout: 20_000 }).catch(async () => {
      defects.add("offline", `says "${await page.locator("#page\\.kept").innerText()}", expected "${name}"`);
    });
  await work(page, says, await context.newCDPSession(page));
  looked += 1;
  await context.close();
}

await browser.close();
await site.close();
rmSync(folder, { recursive: true });
defects.finish(looked, "looks");
