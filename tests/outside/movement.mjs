// The movement of a drawn figure in a browser: nothing moves by itself; a button starts it and stops it, and it ends by
// itself as the still picture that it began from; a reader who wants no movement gets the poses one after the other; without
// scripts nothing offers it.

import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { launch, settled } from "./browser.mjs";
import { Defects, serve } from "./site.mjs";

const program = process.argv[2];
// The third argument of the others is a pattern; here is none.
process.argv.length = 3;
const folder = mkdtempSync(join(tmpdir(), "movement-"));
const defects = new Defects("movement");
let looked = 0;
const expect = (holds, what) => {
  looked += 1;
  if (!holds) defects.add("movement", what);
};

const FIGURE = `[[figure]]
description = "She stands at the counter, first flat on her feet, then high on her toes."
props = ["counter"]
arrows = ["head"]
[[figure.pose]]
base = "standing"
hold = "counter"
[[figure.pose]]
base = "standing"
hold = "counter"
feet = "toes"

`;
const workspace = join(folder, "workspace");
execFileSync(program, ["begin", workspace, "--today", "2026-01-05"]);
const entry = join(workspace, "content/exercises/heel-drop.md");
const text = readFileSync(entry, "utf8");
// In place of figures of its own and of its variation.
const bare = text.replace(/\[\[(?:variation\.)?figure\]\][^]*?\n(?=\[\[(?!figure|variation\.figure)|```)/g, "");
if (!bare.includes("[[caution]]")) throw new Error("heel-drop.md has no [[caution]]");
writeFileSync(entry, bare.replace("[[caution]]", `${FIGURE}[[caution]]`));
execFileSync(program, ["make", "--workspace", workspace, "--today", "2026-01-12", "--quiet", "--draft"]);
const ready = await serve(join(workspace, "ready"));
const address = `${ready.address}exercises/heel-drop.html`;

const browser = await launch();
const open = async (options) => {
  const page = await (await browser.newContext(options)).newPage();
  page.on("pageerror", (error) => defects.add("script", error.message));
  await page.goto(address);
  // It would wait for ever for a frame that scripts are told of.
  if (options.javaScriptEnabled !== false) await settled(page);
  return page;
};
/** Where every shape is, and whether it is seen. Pixels would tell of repainting as well. */
const pictureOf = (page) => page.evaluate(() => {
  const shapes = [...document.querySelectorAll("figure svg :is(path, circle)")];
  const told = shapes.map((shape) => {
    const { x, y, width, height } = shape.getBBox();
    return [x, y, width, height, getComputedStyle(shape).visibility].join(" ");
  });
  return told.join("\n");
});
const moves = async (page) => {
  const before = await pictureOf(page);
  await page.waitForTimeout(700);
  return before !== (await pictureOf(page));
};

const page = await open({});
const button = page.locator("figure button");
const still = await pictureOf(page);
const show = (await button.textContent()).trim();
expect(await button.isVisible(), "no button offers the movement");
expect(!(await moves(page)), "a figure moves before anybody asks");
const box = await button.boundingBox();
expect(box.height >= 44 && box.width >= 44, `the button is ${box.width} by ${box.height} px`);

await button.press("Enter");
const stop = (await button.textContent()).trim();
expect(stop !== show, `the button still says "${stop}" while the figure moves`);
expect(await moves(page), "nothing moves when the reader asks");
await button.press("Enter");
expect((await button.textContent()).trim() === show, "the button does not offer the movement again");
expect(!(await moves(page)) && (await pictureOf(page)) === still, "the stopped figure is not the still picture");

// To the end, faster than by the clock, once it has begun.
await button.click();
expect(await moves(page), "nothing moves when the reader asks again");
await page.evaluate(() => {
  for (const svg of document.querySelectorAll("figure svg")) svg.setCurrentTime(svg.getCurrentTime() + 60);
});
await page.waitForFunction((name) => document.querySelector("figure button").textContent.trim() === name, show, { timeout: 5_000 })
  .catch(() => defects.add("movement", "it does not end by itself"));
expect(!(await moves(page)) && (await pictureOf(page)) === still, "the figure does not end as the still picture");

// A reader who turns movement off while it runs.
await button.click();
await page.emulateMedia({ reducedMotion: "reduce" });
await page.waitForTimeout(200);
expect(!(await moves(page)), "the figure moves on when movement is turned off");
const poses = (await button.textContent()).trim();
expect(poses !== show && poses !== stop, `the button still says "${poses}" when movement is turned off`);

const calm = await open({ reducedMotion: "reduce" });
const calmButton = calm.locator("figure button");
expect((await calmButton.textContent()).trim() === poses, "movement is offered to a reader who wants none");
expect(!(await moves(calm)), "a figure moves before a reader who wants no movement asks for its poses");
// The start while it is looked at, then the finish: nothing in between.
await calmButton.click();
const seen = new Set();
for (let look = 0; look < 20; look += 1) {
  await calm.waitForTimeout(150);
  seen.add(await pictureOf(calm));
}
expect(seen.size === 2, `${seen.size} pictures are shown to a reader who wants the two poses`);

const plain = await open({ javaScriptEnabled: false });
expect(!(await plain.locator("figure button").isVisible()), "without scripts the button is there and does nothing");
expect((await plain.locator("figure svg").count()) === 2, "without scripts the poses are lost");

// Movements weigh: no page but the exercise's own has them.
for (const path of ["exercises/index.html", "series/first-steps/week-02.html"]) {
  const html = readFileSync(join(workspace, "ready", path), "utf8");
  expect(!html.includes("<animate") && html.includes('class="drawn'), `${path} holds a movement, or no figure`);
}

await browser.close();
await ready.close();
rmSync(folder, { recursive: true, force: true });
defects.finish(looked, "looks at a movement");
