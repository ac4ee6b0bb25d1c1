// axe-core with every rule of WCAG 2.2 A, AA and AAA on every page: narrow, tablet, wide, and dark.

import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";

import { eachPage, launch, settled } from "./browser.mjs";
import { Defects, lookedAt, serve, siteFolder } from "./site.mjs";

const TAGS = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag21aaa", "wcag22a", "wcag22aa", "wcag22aaa"];
const LOOKS = [
  { name: "320 px", width: 320, colorScheme: "light" },
  { name: "768 px", width: 768, colorScheme: "light" },
  { name: "1280 px", width: 1280, colorScheme: "light" },
  { name: "1280 px, dark", width: 1280, colorScheme: "dark" },
];
// Rules that axe leaves out unless asked; without them the check would promise more than it does.
const MUST_RUN = ["color-contrast-enhanced", "target-size", "html-has-lang", "identical-links-same-purpose"];

const folder = siteFolder();
const defects = new Defects("axe");
const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const site = await serve(folder);
const browser = await launch();
const ran = new Set();
let looked = 0;

await eachPage(browser, lookedAt(folder), { reducedMotion: "reduce" }, async (page, path) => {
  await page.goto(site.address + path);
  await page.evaluate(axe);
  for (const look of LOOKS) {
    await page.setViewportSize({ width: look.width, height: 900 });
    await page.emulateMedia({ colorScheme: look.colorScheme });
    await settled(page);
    const results = await page.evaluate(runAxe, TAGS);
    looked += 1;
    for (const kind of ["violations", "incomplete", "passes", "inapplicable"]) {
      for (const rule of results[kind]) ran.add(rule.id);
    }
    for (const [kind, word] of [["violations", ""], ["incomplete", "cannot tell: "]]) {
      for (const rule of results[kind]) {
        for (const node of rule.nodes) {
          const why = node.any.concat(node.all, node.none).map((check) => check.message).join(" ");
          defects.add(`${path} at ${look.name}`, `${word}${rule.id}: ${node.target.join(" ")}: ${why}`);
        }
      }
    }
  }
});

for (const rule of MUST_RUN) if (!ran.has(rule)) defects.add("axe", `rule ${rule} did not run`);
await browser.close();
await site.close();
defects.finish(looked, "looks at pages");

/** Runs in the page. What axe cannot tell counts as well, but for the contrast of what is scrolled out of sight. */
async function runAxe(values) {
  const resultTypes = ["violations", "incomplete"];
  const results = await window.axe.run(document, { runOnly: { type: "tag", values }, resultTypes });
  for (const rule of results.incomplete.filter((rule) => rule.id.startsWith("color-contrast"))) {
    const scrolls = (node) => document.querySelector(node.target[0]).closest("[role=region][tabindex]") !== null;
    rule.nodes = rule.nodes.filter((node) => !scrolls(node));
  }
  return results;
}
