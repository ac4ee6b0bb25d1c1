// How long it takes from a save to the updated page in the browser, on 1,000 weeks and 4,000 exercises: 10 edits of an
// exercise, 10 of a week and 10 of a template. Prints; decides nothing, since machines differ.
//
// usage: node proof_speed.mjs STEADYLEAF (a release build)

import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";

import { launch, settled } from "./browser.mjs";
import { preview } from "./preview.mjs";

const SERIES = 40;
const WEEKS = 25;
const EDITS = Number(process.env.EDITS ?? 10);
const folder = mkdtempSync(join(tmpdir(), "steadyleaf-speed-"));
const write = (name, words) => {
  mkdirSync(dirname(join(folder, name)), { recursive: true });
  writeFileSync(join(folder, name), words);
};

generate();
const proof = await preview(process.argv[2], folder, "2026-06-01");
const browser = await launch();
const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
let renewed = null;
await page.exposeFunction("tell", () => renewed?.(performance.now()));

const base = readFileSync(new URL("../../themes/wideleaf/pages/week.html", import.meta.url), "utf8");
const kinds = [
  ["an exercise", "exercises/exercise-0040.html", (n) => write("content/exercises/exercise-0040.md", exercise(40, `Edit ${n}.`))],
  ["a week", "series/series-03/week-05.html", (n) => write("content/series/series-03/week-05.md", week(3, 4, `Edit ${n}.`))],
  ["a template", "series/series-03/week-05.html", (n) => write("themes/wideleaf/pages/week.html", `${base}{# #}`.replace("{% block main %}", `{% block main %}<p>Edit ${n}.</p>`))],
];
const all = [];
// The folder of the theme is made before anything is measured.
write("themes/wideleaf/pages/week.html", base);
for (const [name, path, edit] of kinds) {
  await page.goto(proof.address + path);
  await settled(page);
  await page.waitForFunction(() => document.querySelector(".proof-panel summary") !== null, null, { timeout: 60000 });
  await page.evaluate(() => {
    document.addEventListener("proof:renewed", () => requestAnimationFrame(() => window.tell()));
  });
  const times = [];
  for (let n = 1; n <= EDITS; n += 1) {
    await new Promise((done) => setTimeout(done, 2500));
    const told = new Promise((done) => (renewed = done));
    const start = performance.now();
    edit(`${name} ${n}`);
    times.push((await told) - start);
    const there = await page.evaluate((words) => document.querySelector("main").textContent.includes(words), `Edit ${name} ${n}.`);
    if (!there) throw new Error(`${name}, edit ${n}: the page does not say it`);
  }
  all.push(...times);
  console.log(`${name.padEnd(12)} median ${median(times)} ms, from ${Math.round(Math.min(...times))} to ${Math.round(Math.max(...times))} ms`);
}
console.log(`all ${all.length} edits: median ${median(all)} ms`);

// Idle: processor time of the preview over 10 seconds (proc(5), fields 14 and 15, ticks of 10 ms).
await new Promise((done) => setTimeout(done, 2000));
const before = ticks();
await new Promise((done) => setTimeout(done, 10000));
console.log(`idle: ${(ticks() - before) * 10} ms of processor time in 10 s`);
for (const line of [proof.lines[1], ...proof.lines.slice(-1)]) console.log(`  ${line}`);

await browser.close();
await proof.stop();
rmSync(folder, { recursive: true });

function ticks() {
  const fields = readFileSync(`/proc/${proof.process.pid}/stat`, "utf8").split(") ")[1].split(" ");
  return Number(fields[11]) + Number(fields[12]);
}

function median(times) {
  const sorted = [...times].sort((a, b) => a - b);
  const middle = sorted.length / 2;
  return Math.round(sorted.length % 2 ? sorted[Math.floor(middle)] : (sorted[middle - 1] + sorted[middle]) / 2);
}

function generate() {
  write("site.toml", 'title = "Speed"\nlanguage = "en"\naddress = "https://speed.example/"\n[educator]\nname = "A. Educator"\n');
  for (let i = 0; i < SERIES * WEEKS * 4; i += 1) write(`content/exercises/exercise-${pad(i, 4)}.md`, exercise(i, ""));
  for (let s = 0; s < SERIES; s += 1) {
    const series = `content/series/series-${pad(s, 2)}`;
    write(
      `${series}/series.toml`,
      `title = "Series ${s}"\nsummary = "A series."\naudience = "Everybody."\nstart = 2026-01-05\nserves = ["low-bone-density", "unsteady"]\n`,
    );
    for (let w = 0; w < WEEKS; w += 1) write(`${series}/week-${pad(w + 1, 2)}.md`, week(s, w, ""));
  }
}

function pad(number, length) {
  return String(number).padStart(length, "0");
}

/** About 8 KB. */
function exercise(i, words) {
  const component = ["posture", "balance", "strength", "power"][i % 4];
  const rung = Math.floor(i / 4) % 5;
  const harder = rung === 4 ? "" : `[[progression]]\nexercise = "exercise-${pad(i + 4, 4)}"\n\n`;
  const easier =
    rung === 0
      ? '[[regression]]\ntext = "Hold the counter with both hands."\n'
      : `[[regression]]\nexercise = "exercise-${pad(i - 4, 4)}"\n`;
  const lines = (count, line) => Array.from({ length: count }, (_, n) => line(n)).join("\n");
  return `\`\`\`toml
title = "Exercise ${i}"
component = "${component}"
position = "standing"
support = ["counter"]
equipment = ["sturdy chair"]
demands = ["narrow-stance"]
summary = "Stand tall and move slowly."
reviewed = { by = "A. Reviewer, PT", on = 2026-01-05 }

[dose]
reps = "8-12"
sets = 2
sides = "each"
rest = "60 s"
days = 3

[[variation]]
title = "Seated"
position = "seated"
removes = ["narrow-stance"]
text = "Sit tall and move slowly."

${easier}
${harder}[[caution]]
for = "everyone"
level = "stop"
text = "Stop if you feel dizzy."
\`\`\`
This trains you for daily life. ${words}

## Set up
${lines(12, (n) => `Stand with your feet apart and hold the counter. Look straight ahead, and **breathe** out slowly. Part ${n} of the preparation takes its time, and nothing hurries you.\n`)}
## Move
${lines(20, (n) => `${n + 1}. Press both feet into the floor and grow tall, then let go a little. Count to ${n} in your own time.`)}

## Finish
Stand still.

## Feel
${lines(12, (n) => `You should feel your legs work, and your back stay long and easy. See [the next one](exercise-${pad((i + n) % (SERIES * WEEKS * 4), 4)}.md) when ${n} feels light.\n`)}
## Watch for
${lines(10, (n) => `- Your knees stay soft and your weight stays over the middle of your feet, time ${n}.`)}
`;
}

function week(s, w, words) {
  const first = (s * WEEKS + w) * 4;
  const list = [0, 1, 2, 3].map((k) => `  { id = "exercise-${pad(first + k, 4)}", at = "${k + 1}:05" },`).join("\n");
  const date = new Date(Date.UTC(2026, 0, 5 + 7 * w)).toISOString().slice(0, 10);
  return `\`\`\`toml
week = ${w + 1}
title = "Week of practice"
date = ${date}
exercises = [
${list}
]
question = "What felt easier?"
\`\`\`
Welcome. Take your time this week. ${words}
`;
}
