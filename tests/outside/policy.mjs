// What pages load: nothing from elsewhere, nothing that their own policy forbids, nothing that is missing. The same
// pages open straight from the disk with their style, type and pictures, and lose no word without scripts.

import { pathToFileURL } from "node:url";
import { join } from "node:path";

import { eachPage, launch, settled } from "./browser.mjs";
import { builtOn, Defects, lookedAt, serve, siteFolder } from "./site.mjs";

const folder = siteFolder();
const defects = new Defects("policy");
const site = await serve(folder);
const browser = await launch();
// A letter is pasted into a mail program, which keeps none of what pages load.
const pages = lookedAt(folder).filter((path) => !path.startsWith("educator/"));
const served = new Map();
// A reader with scripts sees the week of her own day, and one without them that of the day on which the site was made.
const built = builtOn(folder);
let looked = 0;

await eachPage(browser, pages, {}, async (page, path) => {
  await page.clock.setFixedTime(built);
  served.set(path, await look(page, site.address + path, `${path} from a server`, new URL(site.address).origin));
});

// The not-found page names its files from the root of the site, since it is shown in place of any page.
const onDisk = pages.filter((path) => path !== "404.html");
const root = pathToFileURL(folder + "/").href;
await eachPage(browser, onDisk, {}, async (page, path) => {
  await look(page, pathToFileURL(join(folder, path)).href, `${path} from the disk`, root);
});

await eachPage(browser, pages, { javaScriptEnabled: false }, async (page, path) => {
  await page.goto(site.address + path);
  looked += 1;
  const words = await page.locator("main").innerText();
  const lost = served.get(path).filter((line) => !words.includes(line));
  for (const line of lost) defects.add(`${path} without scripts`, `loses "${line}"`);
});

// Any wrong address, however deep, brings the not-found page with its style.
{
  const page = await browser.newPage();
  const response = await page.goto(`${site.address}no/such/page.html`);
  if (response.status() !== 404) defects.add("404.html", `has status ${response.status()}`);
  await lookAtParts(page, "404.html in place of a deep page");
}

await browser.close();
await site.close();
defects.finish(looked, "pages opened");

/** Opens one page and answers the lines of it that a reader without scripts must find as well. */
async function look(page, address, where, own) {
  const onRequest = (request) => {
    const url = request.url();
    const inside = url.startsWith(own) || url.startsWith("data:");
    if (!inside) defects.add(where, `asks for ${url}`);
  };
  const onResponse = (response) => {
    if (response.status() >= 400) defects.add(where, `${response.url()} answers ${response.status()}`);
  };
  const onFailed = (request) => {
    const why = request.failure()?.errorText;
    // An icon that is still on its way when the next page is opened.
    if (why !== "net::ERR_ABORTED") defects.add(where, `${request.url()} fails: ${why}`);
  };
  const onConsole = (message) => {
    if (["error", "warning"].includes(message.type())) defects.add(where, `console: ${message.text()}`);
  };
  const onError = (error) => defects.add(where, `script: ${error.message}`);
  const listeners = { request: onRequest, response: onResponse, requestfailed: onFailed, console: onConsole, pageerror: onError };
  for (const [event, listener] of Object.entries(listeners)) page.on(event, listener);
  await page.goto(address);
  await lookAtParts(page, where);
  const lines = await page.evaluate(() => {
    const dynamic = [...document.querySelectorAll("form, button[data-stop], [role=status], .for-today, .not-today")];
    dynamic.forEach((element) => element.remove());
    return document.querySelector("main").innerText.split("\n").map((line) => line.trim()).filter(Boolean);
  });
  for (const [event, listener] of Object.entries(listeners)) page.off(event, listener);
  looked += 1;
  return lines;
}

/** The policy, the style sheets, the typeface and the pictures of the page that is open. */
async function lookAtParts(page, where) {
  // Pictures further down load when they come into view.
  await page.evaluate(() => document.querySelectorAll("img").forEach((img) => (img.loading = "eager")));
  await settled(page);
  const faults = await page.evaluate(async () => {
    const faults = [];
    const policy = document.querySelector("meta[http-equiv=Content-Security-Policy]")?.content ?? "";
    if (!policy.includes("default-src 'none'")) faults.push("has no policy that forbids what it does not name");
    if (policy.includes("unsafe")) faults.push("has a policy that allows something unsafe");
    const scripts = policy.split("; ").find((part) => part.startsWith("script-src "))?.split(" ").slice(1) ?? [];
    const named = scripts.length > 0 && scripts.every((source) => /^'sha256-[\w+/]{43}='$/.test(source));
    if (!named) faults.push("has a policy that allows scripts which it does not name");
    for (const closed of ["object-src", "base-uri", "form-action"]) {
      if (!policy.split("; ").includes(`${closed} 'none'`)) faults.push(`has a policy that leaves ${closed} open`);
    }
    const sheets = [...document.querySelectorAll("link[rel=stylesheet]")];
    if (sheets.length === 0) faults.push("has no style sheet");
    for (const link of sheets) if (link.sheet === null) faults.push(`${link.href} is not applied`);
    const family = getComputedStyle(document.body).fontFamily.split(",")[0].replaceAll('"', "");
    const loaded = [...document.fonts].filter((face) => face.status === "loaded");
    const own = loaded.filter((face) => face.family.replaceAll('"', "") === family);
    if (own.length === 0) faults.push(`the typeface ${family} is not loaded`);
    const broken = [...document.fonts].filter((face) => face.status === "error");
    for (const face of broken) faults.push(`the typeface ${face.family} ${face.weight} fails`);
    for (const img of document.images) {
      await img.decode().catch(() => {});
      if (img.naturalWidth === 0) faults.push(`${img.src} shows nothing`);
    }
    const form = document.querySelector("form");
    if (form?.hidden) faults.push("its script did not run");
    return faults;
  });
  for (const fault of faults) defects.add(where, fault);
}
