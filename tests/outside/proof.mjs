// The live preview in a browser: what is saved appears in the open page, in its place, with scroll and focus kept;
// findings open to their line; a broken entry keeps the last good page.
//
// usage: node proof.mjs STEADYLEAF WORKSPACE TODAY (the workspace is changed: give it a copy of the demonstration)

import { readFileSync, mkdirSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

import { launch, settled } from "./browser.mjs";
import { preview } from "./preview.mjs";
import { Defects } from "./site.mjs";

const [steadyleaf, workspace, today] = process.argv.slice(2);
const EXERCISE = "content/exercises/heel-drop.md";
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const defects = new Defects("proof", null);
let tried = 0;

const proof = await preview(steadyleaf, workspace, today);
const browser = await launch();
const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
const page = await context.newPage();
page.on("console", (message) => {
  // What the page's own policy forbids is told there too. A page that is not there yet is one of the checks.
  const wrong = message.type() === "error" && !message.text().includes("404") && !message.text().includes("ERR_");
  if (wrong) defects.add("page", `the browser says: ${message.text()}`);
});
page.on("pageerror", (error) => defects.add("page", `a script fails: ${error.message}`));

const text = (name) => readFileSync(join(workspace, name), "utf8");
const write = (name, words) => {
  mkdirSync(dirname(join(workspace, name)), { recursive: true });
  writeFileSync(join(workspace, name), words);
};
const edit = (name, old, words) => {
  if (!text(name).includes(old)) throw new Error(`${name} does not say ${old}`);
  write(name, text(name).replace(old, words));
};
const expect = (what, holds) => {
  tried += 1;
  if (!holds) defects.add("heel-drop", what);
};
/** Waits until the page says so; a machine may be busy with other things. */
const appears = async (what, test, argument) => {
  tried += 1;
  await page.waitForFunction(test, argument, { timeout: 20000 }).catch(() => defects.add("heel-drop", what));
};
const says = (words) => document.querySelector("main").textContent.includes(words);
const panelSays = (words) => document.querySelector(".proof-panel").textContent.includes(words);

await page.goto(`${proof.address}exercises/heel-drop.html`);
await settled(page);
await appears("the panel does not appear", panelSays, "Review:");
await page.evaluate(() => (window.stays = true));

// A change below what the reader looks at, with the focus on a link of the page.
const focus = () => page.evaluate(() => document.activeElement.outerHTML);
await page.locator("main a[href]:visible").nth(2).focus();
await settled(page);
await page.evaluate(() => scrollTo({ top: 400, behavior: "instant" }));
await settled(page);
const before = { focus: await focus(), scroll: await page.evaluate(() => scrollY) };
expect("a link takes no focus", before.focus.startsWith("<a "));
const whole = text(EXERCISE);
edit(EXERCISE, "\n## Finish\n", "\n## Finish\nA sentence at the end.\n\n");
await appears("a saved sentence does not appear", says, "A sentence at the end.");
expect("the page was loaded anew", await page.evaluate(() => window.stays === true));
expect("the focus is lost", (await focus()) === before.focus);
const scrolled = (await page.evaluate(() => scrollY)) - before.scroll;
expect(`the page scrolled by ${scrolled} px`, Math.abs(scrolled) <= 1);

// A change above it: what is looked at stays where it is in the window.
const place = () =>
  page.evaluate(() => {
    const looked = (window.looked ??= document.elementFromPoint(innerWidth / 2, innerHeight / 3));
    return looked.isConnected ? looked.getBoundingClientRect().top : null;
  });
const top = await place();
edit(EXERCISE, "\n## Set up\n", "\nOne more paragraph before it, long enough to take some room.\n\n## Set up\n");
await appears("a paragraph above does not appear", says, "One more paragraph before it");
const now = await place();
expect(`what was looked at moved from ${top} to ${now}`, now !== null && Math.abs(now - top) <= 2);
expect("the page was loaded anew", await page.evaluate(() => window.stays === true));

// The theme: a style sheet and a template.
const colours = readFileSync(new URL("../../themes/wideleaf/style/colours.css", import.meta.url), "utf8");
write("themes/wideleaf/style/colours.css", colours.replace("--paper: #fcf9f3", "--paper: #fafafa"));
await appears(
  "a saved colour does not appear",
  () => getComputedStyle(document.body).backgroundColor === "rgb(250, 250, 250)",
);
const base = readFileSync(new URL("../../themes/wideleaf/pages/frame.html", import.meta.url), "utf8");
write("themes/wideleaf/pages/frame.html", base.replace("<footer class=\"foot\">", "<footer class=\"foot\"><p>A new foot.</p>"));
await appears("a saved template does not appear", () => document.body.textContent.includes("A new foot."));
expect("the page was loaded anew", await page.evaluate(() => window.stays === true));

// A script: the page is loaded anew with it, and its policy allows it.
const movement = readFileSync(new URL("../../themes/wideleaf/script/movement.js", import.meta.url), "utf8");
write("themes/wideleaf/script/movement.js", `${movement}\ndocument.documentElement.dataset.script = "new";\n`);
await appears("a saved script does not run", () => document.documentElement.dataset.script === "new");
expect("the page was not loaded anew for a script", await page.evaluate(() => window.stays === undefined));
await appears("the panel does not come again", panelSays, "Review:");

// A finding: by keyboard from the panel to its line.
edit(EXERCISE, "demands = [", 'demands = ["impact-loud", ');
await appears("the panel does not tell an error", panelSays, "impact-loud");
await appears("a broken entry is not told", panelSays, "Showing the last good version.");
expect("a broken entry does not keep the page", await page.evaluate(says, "A sentence at the end."));
await page.locator(".proof-panel > details > summary").focus();
await page.keyboard.press("Enter");
await page.keyboard.press("Tab");
await page.keyboard.press("Enter");
await appears("a finding does not open to its line", () =>
  document.querySelector(".proof-panel mark")?.textContent.includes("impact-loud"),
);
for (const colorScheme of ["light", "dark"]) {
  await page.emulateMedia({ colorScheme });
  await page.evaluate(axe);
  const found = await page.evaluate(() =>
    window.axe.run(".proof-panel", { runOnly: ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21aa", "wcag22aa", "best-practice"] }),
  );
  tried += found.passes.length;
  for (const { id, nodes } of found.violations) defects.add(`the panel, ${colorScheme}`, `${id}: ${nodes[0].html}`);
}
await page.emulateMedia({ colorScheme: "light" });
if (process.env.PICTURES) await page.screenshot({ path: join(process.env.PICTURES, "proof-finding.png") });

// Another change: what was opened stays open, and the entry is whole again.
write(EXERCISE, whole.replace("\n## Finish\n", "\n## Finish\nAnother sentence.\n\n"));
await appears("a fixed entry does not appear", says, "Another sentence.");
await appears("a fixed entry is still told", () => !document.querySelector(".proof-panel").textContent.includes("last good version"));
expect("the panel closed itself", await page.evaluate(() => document.querySelector(".proof-panel > details").open));
await page.locator(".proof-panel > details > summary").click();

// The panel takes its own room at the end of the page.
await page.evaluate(() => scrollTo({ top: document.body.scrollHeight, behavior: "instant" }));
const covered = await page.evaluate(() => {
  const foot = document.querySelector("footer").getBoundingClientRect().bottom;
  return foot - document.querySelector(".proof-panel").getBoundingClientRect().top;
});
expect(`the panel covers ${covered} px of the page's end`, covered <= 0.5);
if (process.env.PICTURES) await page.screenshot({ path: join(process.env.PICTURES, "proof-end.png") });
await page.setViewportSize({ width: 320, height: 640 });
expect("the page scrolls sideways", await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
await page.setViewportSize({ width: 1280, height: 800 });

// A page that is not there yet comes when its entry is saved.
await page.goto(`${proof.address}pages/opening-hours.html`);
write("content/pages/opening-hours.md", '```toml\ntitle = "Opening hours"\n```\nEvery morning.\n');
await appears("a new page does not appear", () => document.querySelector("h1")?.textContent === "Opening hours");

await page.waitForLoadState("load");
await settled(page);
const code = await proof.stop();
expect(`the preview ended with ${code}`, code === 0);
await appears("the page does not tell that the preview has stopped", () =>
  document.querySelector(".proof-lost")?.checkVisibility(),
);
await browser.close();
defects.finish(tried, "looks at the preview");
