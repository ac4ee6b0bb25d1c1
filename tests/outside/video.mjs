// The video of a week in a browser. One of the site's own plays on the page when it is asked to, with captions and
// chapters that jump, and not before; one elsewhere is never asked for anything before its button is pressed.

import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

import { launch } from "./browser.mjs";
import { Defects, serve } from "./site.mjs";

const program = process.argv[2];
// The third argument of the others is a pattern; here is none.
process.argv.length = 3;
const here = dirname(fileURLToPath(import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "video-"));
const defects = new Defects("video");
let looked = 0;
const expect = (holds, what) => {
  looked += 1;
  if (!holds) defects.add("video", what);
};

// The sample, its first week with a video of its own, the second with one elsewhere.
const workspace = join(folder, "workspace");
execFileSync(program, ["begin", workspace, "--today", "2026-01-05"]);
const series = join(workspace, "content/series/first-steps");
mkdirSync(join(workspace, "content/media"), { recursive: true });
mkdirSync(join(series, "captions"), { recursive: true });
cpSync(join(here, "video/week-01.webm"), join(workspace, "content/media/week-01.webm"));
cpSync(join(here, "video/week-01.en.vtt"), join(series, "captions/week-01.en.vtt"));
const change = (file, changes) => {
  const path = join(series, file);
  let text = readFileSync(path, "utf8");
  for (const [old, now] of changes) {
    if (!text.includes(old)) throw new Error(`${file} has no ${old}`);
    text = text.replace(old, now);
  }
  writeFileSync(path, text);
};
const video = (place) => `[video]\n${place}\nlength = "0:40"\ncaptions = ["captions/week-01.en.vtt"]\n\`\`\`\n`;
change("week-01.md", [
  ['{ id = "tall-sit"', '{ id = "tall-sit", at = "0:10"'],
  ['{ id = "feet-together-stand"', '{ id = "feet-together-stand", at = "0:20"'],
  ['{ id = "sit-to-stand"', '{ id = "sit-to-stand", at = "0:25"'],
  ['{ id = "heel-raise"', '{ id = "heel-raise", at = "0:30"'],
  ["```\nWelcome", `${video('file = "media/week-01.webm"')}Welcome`],
]);
change("week-02.md", [["```\nWelcome", `${video('address = "https://video.example/2"')}Welcome`]]);
const site = join(workspace, "site.toml");
writeFileSync(site, `time_parameter = "t"\n${readFileSync(site, "utf8")}`);
execFileSync(program, ["make", "--workspace", workspace, "--today", "2026-01-12", "--quiet"]);
const ready = await serve(join(workspace, "ready"));

const browser = await launch();
const page = await (await browser.newContext()).newPage();
const asked = [];
page.on("request", (request) => asked.push(request.url()));
page.on("pageerror", (error) => defects.add("script", error.message));

await page.goto(`${ready.address}series/first-steps/week-01.html`);
await page.waitForTimeout(500);
const player = page.locator("video");
const play = page.locator("#page\\.play");
expect(await play.isVisible(), "there is no button to play");
expect(!(await player.isVisible()), "the player shows before it is asked for");
expect(!asked.some((url) => url.endsWith(".webm")), "the video is loaded before it is asked for");
expect(/0:40|40 seconds/.test(await play.textContent()), "the button does not say how long the video is");

await play.press("Enter");
await page.waitForFunction(() => document.querySelector("video").currentTime > 0, null, { timeout: 15_000 }).catch(() => {});
const state = () => page.evaluate(() => {
  const video = document.querySelector("video");
  const tracks = [...video.textTracks].map((track) => ({ kind: track.kind, mode: track.mode, cues: track.cues?.length ?? 0, active: track.activeCues?.[0]?.text }));
  return { time: video.currentTime, paused: video.paused, focused: document.activeElement === video, tracks };
});
let now = await state();
expect(await player.isVisible() && now.time > 0 && !now.paused, `the video does not play: ${JSON.stringify(now)}`);
expect(now.focused, "the keyboard does not reach the player");
const captions = () => now.tracks.find((track) => track.kind === "captions");
expect(captions()?.mode === "showing" && captions().cues === 3, `captions do not show: ${JSON.stringify(now.tracks)}`);

expect(!(await page.locator(".chapters").isVisible()), "the chapters are not folded");
await page.locator("details:has(> .chapters) > summary").click();
await page.locator(".chapters a").nth(2).click();
await page.waitForFunction(() => document.querySelector("video").currentTime >= 20, null, { timeout: 10_000 }).catch(() => {});
await page.waitForTimeout(1_000);
now = await state();
expect(now.time >= 20 && now.time < 25, `the chapter at 0:20 leads to ${now.time}`);
expect(captions()?.active?.includes("feet together"), `the captions at 0:21 are ${captions()?.active}`);
await page.locator("article").last().locator("details:has(a[data-seconds]) > summary").click();
await page.locator("article .on-screen a[data-seconds]").last().click();
await page.waitForFunction(() => document.querySelector("video").currentTime >= 30, null, { timeout: 10_000 }).catch(() => {});
now = await state();
expect(now.time >= 30 && now.time < 35, `an exercise's own link leads to ${now.time}`);
await page.keyboard.press("Space");
await page.waitForTimeout(300);
expect(page.url().endsWith("week-01.html"), `a jump leaves the page for ${page.url()}`);
const chapters = await page.evaluate(async () => {
  const track = [...document.querySelector("video").textTracks].find((track) => track.kind === "chapters");
  track.mode = "hidden";
  await new Promise((done) => setTimeout(done, 500));
  return [...(track.cues ?? [])].map((cue) => cue.startTime);
});
expect(JSON.stringify(chapters) === "[0,10,20,25,30]", `the player's chapters start at ${chapters}`);

// What is said has a page of its own, to which the week leads.
const reader = await (await browser.newContext()).newPage();
await reader.goto(`${ready.address}series/first-steps/week-01.html`);
await reader.locator("a[href$='week-01-transcript.html']").click();
expect((await reader.locator("main").innerText()).includes("Maren: Welcome to week one."), "the transcript does not name the speaker");

// Without scripts the player stands there, and the links lead to the moment in the file.
const plain = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
await plain.goto(`${ready.address}series/first-steps/week-01.html`);
expect(await plain.locator("video").isVisible(), "there is no player without scripts");
expect((await plain.locator(".chapters a").nth(2).getAttribute("href")).endsWith("week-01.webm#t=20"), "a chapter leads nowhere without scripts");

// Elsewhere.
asked.length = 0;
await page.goto(`${ready.address}series/first-steps/week-02.html`);
await page.waitForTimeout(500);
const others = asked.filter((url) => !url.startsWith(ready.address));
expect(others.length === 0, `${others} is asked for before anything is pressed`);
const poster = page.locator(".poster");
expect((await poster.textContent()).includes("video.example"), "the poster does not say where the video is");
expect((await poster.locator("a").getAttribute("href")) === "https://video.example/2", "the poster leads elsewhere");

await browser.close();
await ready.close();
rmSync(folder, { recursive: true });
defects.finish(looked, "looks");
