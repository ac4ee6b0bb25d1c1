// Injection: whatever markup stands in the texts of authors and in the references of others, no page runs it, loads
// what it names, or leads where it says; with the pages' policy, and without it. Then the policy by itself: of scripts
// that are put into a finished page it runs none, and without it they run.
//
// usage: node injected.mjs STEADYLEAF FOLDER (made anew)

import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

import { eachPage, launch, settled } from "./browser.mjs";
import { Defects, filesOf, pagesOf, serve } from "./site.mjs";

const [program, place] = process.argv.slice(2);
const folder = resolve(place);
const workspace = join(folder, "workspace");
const here = dirname(fileURLToPath(import.meta.url));
const defects = new Defects("injected", null);
let looked = 0;

const ELSEWHERE = "elsewhere.example";
const POLICY = /<meta http-equiv="Content-Security-Policy"[^>]*>\n/;
// A file that an author publishes: a PDF by its name, and a program.
const LEAF = `/* %PDF-1.7 */ globalThis.INJECTED = "leaf.pdf"; (globalThis.RAN ??= []).push("leaf.pdf");\n`;

// --- What is injected. Each piece begins with words of its own: a page shows them, or a finding refuses their line.

const keys = [];
const run = (key) => `globalThis.INJECTED=\`${key}\``;

/** Markup of many kinds, after what would end whatever it stands in. `seen`: a page shows the value, or it is refused. */
function hostile(key, seen = true) {
  if (seen) keys.push(key);
  return [
    `mark-${key} "'>--></title></style></textarea></noscript></script>`,
    `<script>${run(key)}</script>`,
    ...["", "/", "../", "../../"].map((root) => `<script src="${root}media/leaf.pdf"></script>`),
    `<img src=x onerror=${run(key)}>`,
    `<svg onload=${run(key)}><animate onbegin=${run(key)} attributeName=x dur=1s></svg>`,
    `<iframe srcdoc="<script>parent.INJECTED='${key}'</script>"></iframe>`,
    `<iframe src="https://${ELSEWHERE}/${key}"></iframe><object data="media/leaf.pdf"></object><embed src="media/leaf.pdf">`,
    `<meta http-equiv="refresh" content="0;url=https://${ELSEWHERE}/${key}"><base href="https://${ELSEWHERE}/">`,
    `<form action="https://${ELSEWHERE}/"><input autofocus onfocus=${run(key)}></form>`,
    `<style>@import "https://${ELSEWHERE}/${key}.css";</style><link rel=stylesheet href="https://${ELSEWHERE}/x.css">`,
    `<details open ontoggle=${run(key)}><a href="javascript:${run(key)}">x</a>`,
    `{{ 7 * 7 }} {% include "frame.html" %} \\u003cscript\\u003e &lt;script&gt;`,
  ].join(" ");
}

/** One attribute's worth of it: what would end a quoted value and go on in the tag. */
function quoted(key) {
  keys.push(key);
  return `mark-${key}" onmouseover="${run(key)}" style="x" autofocus onfocus='${run(key)}' x='`;
}

const toml = (text) => JSON.stringify(text);
const path = (name) => join(workspace, name);
const text = (name) => readFileSync(path(name), "utf8");
const write = (name, words) => {
  mkdirSync(dirname(path(name)), { recursive: true });
  writeFileSync(path(name), words);
};

/** Replaces words of a file, which must be there. */
function edit(name, ...changes) {
  let now = text(name);
  for (const [old, instead] of changes) {
    const found = typeof old === "string" ? now.includes(old) : old.test(now);
    if (!found) throw new Error(`${name} does not say ${old}`);
    now = now.replace(old, () => instead);
  }
  write(name, now);
}
/** Gives a field of an entry another value. */
const field = (name, value) => [new RegExp(`^${name} = .*$`, "m"), `${name} = ${toml(value)}`];

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
execFileSync(program, ["begin", workspace, "--today", "2026-01-05"]);
write("content/media/leaf.pdf", LEAF);
write(`content/media/"><img src=x onerror=INJECTED=1>.pdf`, LEAF);
cpSync(join(here, "everything/content/media/counter.png"), path("content/media/counter.png"));
cpSync(join(here, "video/week-01.webm"), path("content/media/week-01.webm"));
theSite();
references();
exercise();
weeks();
prose();

// A sheet of hostile words may be refused for their width; that is no matter of pages.
const made = spawnSync(program, ["make", "--workspace", workspace, "--today", "2026-01-12", "--draft"], { encoding: "utf8", maxBuffer: 1 << 28 });
if (made.status !== 0) throw new Error(`make ends with ${made.status}: ${made.stdout.slice(-2000)}${made.stderr}`);
const ready = join(workspace, "ready");
const pages = pagesOf(ready);
// The citation style writes titles of journals in capitals.
const words = pages.map((page) => readFileSync(join(ready, page), "utf8")).join("\n").toLowerCase();
const review = spawnSync(program, ["review", "--workspace", workspace, "--today", "2026-01-12", "--format", "json"], { encoding: "utf8", maxBuffer: 1 << 28 });
const { findings, exceptions } = JSON.parse(review.stdout);
const errors = findings.filter(({ level }) => level === "error");
// What an exception says stands on pages for the educator alone, which are not published.
const told = JSON.stringify(exceptions);
const refused = errors.map(({ file, line }) => text(file).split("\n")[line - 1]);
for (const key of keys) {
  looked += 1;
  const is = words.includes(`mark-${key}`) || told.includes(`mark-${key}`) || refused.some((line) => line.includes(`mark-${key}`));
  if (!is) defects.add(key, "is neither on a page nor refused by a finding");
}
if (!filesOf(ready).includes("media/leaf.pdf")) defects.add("media/leaf.pdf", "is not published, so that nothing could run it");

// --- Every page, with its policy and without it, from a server and from the disk.

const bare = join(folder, "without-policy");
cpSync(ready, bare, { recursive: true });
for (const page of pages) {
  const html = readFileSync(join(bare, page), "utf8");
  // A letter has none: mail programs have their own.
  const has = POLICY.test(html);
  if (has === page.startsWith("educator/")) defects.add(page, has ? "has a policy" : "has no policy");
  writeFileSync(join(bare, page), html.replace(POLICY, ""));
}
/** The scripts of the theme, by their names. */
const scripts = join(here, "../../themes/wideleaf/script");
const ours = Object.fromEntries(filesOf(scripts).map((name) => [name.replace(/\.js$/, ""), readFileSync(join(scripts, name), "utf8")]));
const browser = await launch();
for (const [root, how] of [[ready, "with its policy"], [bare, "without a policy"]]) {
  const site = await serve(root);
  await eachPage(browser, pages, { serviceWorkers: "block" }, (page, path) => look(page, site.address + path, site.address, `${path} from a server, ${how}`));
  // The not-found page names its files from the root of the site.
  const onDisk = pages.filter((path) => path !== "404.html");
  const disk = pathToFileURL(`${root}/`).href;
  await eachPage(browser, onDisk, {}, (page, path) => look(page, pathToFileURL(join(root, path)).href, disk, `${path} from the disk, ${how}`));
  await site.close();
}

// --- The policy by itself.

const PUT_IN = `<script src="media/leaf.pdf"></script>
<script src="data:text/javascript,RAN.push('data')"></script>
<script>(globalThis.RAN ??= []).push("inline");</script>
<script type="module">(globalThis.RAN ??= []).push("module");</script>
<img src="no-such-picture.png" alt="x" onerror="(globalThis.RAN ??= []).push('handler')">
<a id="put-in" href="javascript:void (globalThis.RAN ??= []).push('link')">x</a>
<base href="https://${ELSEWHERE}/">
`;
const ALL = ["base", "data", "handler", "inline", "leaf.pdf", "link", "module"];
const closed = readFileSync(join(ready, "index.html"), "utf8");
const broken = (html) => html.replace(/<h1[^>]*>/, (found) => `${PUT_IN}${found}`);
const opened = closed.replace(/script-src [^;]*/, "script-src 'self' file:");
for (const [name, html, expected] of [
  ["closed", broken(closed), []],
  // What a policy that allows the site's own files lets through.
  ["opened", broken(opened), ["leaf.pdf"]],
  ["bare", broken(closed.replace(POLICY, "")), ALL],
]) {
  writeFileSync(join(ready, `${name}.html`), html);
  const site = await serve(ready);
  for (const [where, address] of [["a server", `${site.address}${name}.html`], ["the disk", pathToFileURL(join(ready, `${name}.html`)).href]]) {
    const ran = await whatRuns(address);
    looked += 1;
    if (ran.join() !== expected.join()) defects.add(`${name}.html from ${where}`, `runs "${ran}", expected "${expected}"`);
  }
  await site.close();
}

await browser.close();
rmSync(folder, { recursive: true, force: true });
defects.finish(looked, "looks at injected markup");

/** Opens one page and looks for anything that came of what was injected. */
async function look(page, address, own, where) {
  const told = [];
  const listeners = {
    dialog: (dialog) => {
      told.push(`opens a dialog: ${dialog.message()}`);
      dialog.dismiss().catch(() => {});
    },
    request: (request) => {
      const url = request.url();
      if (!url.startsWith(own)) told.push(`asks for ${url}`);
      else if (/leaf\.pdf|onerror/.test(url)) told.push(`loads ${url}`);
    },
    frameattached: () => told.push("gets a frame"),
    popup: () => told.push("opens a window"),
    framenavigated: (frame) => frame.url() !== address && told.push(`leads to ${frame.url()}`),
    pageerror: (error) => told.push(`a script fails: ${error.message}`),
  };
  for (const [event, listener] of Object.entries(listeners)) page.on(event, listener);
  try {
    await page.goto(address);
    await settled(page);
    // A picture that cannot be loaded and a page that moves on after no second take a moment.
    await page.waitForTimeout(150);
    told.push(...(await page.evaluate(faultsOf, ours)));
  } catch (error) {
    // A page that moves on cannot be asked any more.
    told.push(`does not stay: ${error.message.split("\n")[0]}`);
  }
  if (page.url() !== address) told.push(`has become ${page.url()}`);
  for (const [event, listener] of Object.entries(listeners)) page.off(event, listener);
  for (const one of told) defects.add(where, one);
  looked += 1;
}

/** Runs in the page: what there is of injected elements, attributes and addresses, and whether any of it ran. */
function faultsOf(ours) {
  const faults = [];
  if (globalThis.INJECTED !== undefined) faults.push(`runs ${globalThis.INJECTED}`);
  const outline = (element) => element.outerHTML.slice(0, 160);
  const asked = "#filter, .yours-ask, #days\\.form, #practice\\.go, #practice\\.log";
  const never = `iframe, frame, object, embed, base, portal, meta[http-equiv=refresh i], form:not(${asked}), input:not(:is(${asked}) input, [type=checkbox]), :not(head) > link, body style, foreignObject`;
  for (const element of document.querySelectorAll(never)) faults.push(`has ${outline(element)}`);
  for (const script of document.querySelectorAll("script")) {
    const isData = ["application/json", "application/ld+json"].includes(script.type);
    const isOurs = isData || script.textContent === `\n${ours[script.dataset.name]}`;
    if (!isOurs || script.hasAttribute("src")) faults.push(`has ${outline(script)}`);
    if (!script.type.endsWith("json")) continue;
    try {
      JSON.parse(script.textContent);
    } catch {
      faults.push(`has data that cannot be read: ${outline(script)}`);
    }
  }
  for (const element of document.querySelectorAll("*")) {
    for (const { name, value } of element.attributes) {
      if (name.startsWith("on")) faults.push(`has ${name} in ${outline(element)}`);
      if (!["href", "xlink:href", "src", "action", "formaction", "data", "poster", "to", "from", "values"].includes(name)) continue;
      const protocol = URL.canParse(value, document.baseURI) ? new URL(value, document.baseURI).protocol : "none:";
      if (!["http:", "https:", "file:", "mailto:", "tel:"].includes(protocol)) faults.push(`leads to ${value.slice(0, 80)}`);
    }
  }
  return faults;
}

/** What of the injected scripts a page runs, in order of the alphabet; "base" when addresses lead elsewhere. */
async function whatRuns(address) {
  const context = await browser.newContext({ serviceWorkers: "block" });
  const page = await context.newPage();
  await page.goto(address);
  await settled(page);
  await page.evaluate(() => document.getElementById("put-in").click());
  await page.waitForTimeout(500);
  const ran = await page.evaluate((elsewhere) => {
    const ran = globalThis.RAN ?? [];
    return document.baseURI.includes(elsewhere) ? [...ran, "base"] : ran;
  }, ELSEWHERE);
  await context.close();
  return ran.sort();
}

// --- The entries.

function theSite() {
  edit(
    "site.toml",
    field("title", hostile("site-title")),
    field("summary", hostile("site-summary")),
    field("name", hostile("educator-name")),
    field("credentials", quoted("credentials")),
    field("clinic", hostile("clinic")),
    [/^place = .*$/m, `place = [${toml(hostile("place"))}]`],
    field("phone", quoted("phone")),
    field("email", quoted("email")),
    field("emergency", quoted("emergency")),
    ["sizes = [18, 24]", "sizes = [18]"],
    ['papers = ["a4", "letter"]', 'papers = ["a4"]'],
  );
  const own = `
[[demand]]
id = "own-demand"
label = ${toml(hostile("demand-label", false))}

[[precaution]]
id = "own-precaution"
label = ${toml(hostile("precaution-label"))}
restricts = [{ demand = "own-demand", by = "ask", instead = ${toml(hostile("instead", false))}, source = ${toml(hostile("restriction-source", false))} }]
`;
  write("site.toml", text("site.toml") + own);
}

function references() {
  // Braces of the references stand in pairs, and an @ would begin an entry.
  const value = (key, seen) => hostile(key, seen).replaceAll(/[{}%@\\]/g, "");
  // A name with an equals sign is read as its parts, and is none.
  const name = (key) => {
    keys.push(key);
    return `mark-${key} "'></title></textarea><script>globalThis.INJECTED++</script><iframe></iframe><base><embed>`;
  };
  const address = (key, url) => {
    keys.push(key);
    return `@article{${key}, title = {mark-${key}}, author = {Roe, R.}, date = {2021}, url = {${url}}}\n`;
  };
  const bib = `
@article{evil-words,
  title = {${value("bib-title")}},
  author = {{${name("bib-author")}}},
  journaltitle = {${value("bib-journal")}},
  date = {2022},
  volume = {${value("bib-volume")}},
  number = {${value("bib-number")}},
  pages = {${value("bib-pages", false)}},
  note = {${value("bib-note", false)}},
  doi = {10.1/"><script>${run("doi")}</script>},
}
@book{evil-book,
  title = {${value("bib-book")} $<b onclick=x>$ \\href{javascript:alert(1)}{x}},
  editor = {{${name("bib-editor")}}},
  publisher = {${value("bib-publisher")}},
  location = {${value("bib-location", false)}},
  date = {2020},
  url = {https://${ELSEWHERE}/"><img src=x onerror=${run("bib-url")}>},
}
`;
  const addresses = [
    address("url-javascript", "javascript:globalThis.INJECTED=1"),
    address("url-spaced", " JavaScript&#58;globalThis.INJECTED=1"),
    address("url-data", "data:text/html,<script>parent.INJECTED=1</script>"),
    address("url-vbscript", "vbscript:msgbox"),
    address("url-relative", "//elsewhere.example/x"),
  ];
  write("content/references.bib", text("content/references.bib") + bib + addresses.join(""));
}

function exercise() {
  edit(
    "content/exercises/heel-drop.md",
    field("title", hostile("exercise-title")),
    field("summary", hostile("exercise-summary")),
    ['demands = ["impact-low", "tiptoe"]', 'demands = ["impact-low", "tiptoe", "own-demand"]'],
    ['support = ["counter"]', `support = ["counter"]\nequipment = [${toml(hostile("equipment"))}]`],
    [/^reviewed = .*$/m, `reviewed = { by = ${toml(hostile("reviewer"))}, on = 2026-01-05 }
accept = [{ finding = "caution-without-form", because = ${toml(hostile("because"))}, by = "A. Reviewer", on = 2026-01-05 }]`],
    ['title = "Seated heel press"', `title = ${toml(hostile("variation-title"))}`],
    ['text = "The same on a chair, without a jolt."', `text = ${toml(hostile("variation-text"))}`],
    ['  "Sit tall on a sturdy chair, both feet flat. Hold the seat.",', `  ${toml(hostile("variation-step"))},`],
    [/^description = "She sits.*$/m, `description = ${toml(hostile("variation-figure"))}`],
    ['text = "Let go with one hand."', `text = ${toml(hostile("progression"))}`],
    ['use = "Seated heel press"\n', ""],
    ['text = "Keep both hands on the counter, so that you can catch yourself."', `text = ${toml(hostile("caution"))}`],
    [/^description = "She holds.*$/m, `description = ${toml(hostile("figure"))}
caption = ${toml(hostile("caption"))}
labels = [{ at = "hands", text = ${toml(hostile("label"))} }]`],
    ["[@brooke-wavell-2022]", `[@evil-words, ${quoted("locator")}] [@evil-book] [@url-javascript; @url-spaced; @url-data; @url-vbscript; @url-relative]`],
    ["1. Rise on your toes.", `1. ${hostile("step")}`],
    ["## Finish\n", `## Finish\n\n### ${hostile("heading")}\n\n`],
  );
  edit(
    "content/exercises/tall-sit.md",
    [/\[\[figure\]\][^]*?(?=```)/, `[[figure]]\nfile = "media/counter.png"\ndescription = ${toml(quoted("photo"))}\ncaption = ${toml(hostile("photo-caption"))}\n`],
  );
}

function weeks() {
  keys.push("captions-escaped");
  const series = "content/series/first-steps";
  edit(`${series}/series.toml`, field("title", hostile("series-title")), field("summary", hostile("series-summary")), field("audience", hostile("audience")), ['  "no-floor",', '  "no-floor",\n  "own-precaution",']);
  edit(
    `${series}/week-02.md`,
    field("title", hostile("week-title")),
    [/^question = .*$/m, `question = ${toml(hostile("question"))}

[video]
file = "media/week-01.webm"
length = "0:40"
captions = ["captions/week-02.en.vtt"]

[[thanks]]
name = ${toml(hostile("thanks"))}
consent = true`],
    ['{ id = "tall-sit",', '{ id = "tall-sit", at = "0:10",'],
    ['focus = "Both feet land together."', `at = "0:30", focus = ${toml(hostile("focus"))}`],
    ["Welcome back.", `${hostile("welcome")} Welcome back.`],
  );
  edit(
    `${series}/week-01.md`,
    [/^question = .*$/m, `question = "Which?"\n[video]\naddress = ${toml(`https://video.example/${quoted("video-address")}`)}\nlength = "0:40"`],
  );
  // A speaker's name ends at the first `>`.
  write(
    `${series}/captions/week-02.en.vtt`,
    `WEBVTT

00:01.000 --> 00:14.000
<v ${quoted("speaker").replaceAll(/[<>]/g, "")}>Welcome.

00:14.500 --> 00:24.000
${hostile("captions").replaceAll("-->", "")}

00:25.000 --> 00:38.000
mark-captions-escaped &lt;script&gt;${run("captions-escaped")}&lt;/script&gt; <c.x" onclick="y">mark</c>
`,
  );
}

function prose() {
  keys.push("prose-html", "prose-addresses", "prose-inline", "code", "picture", "odd-name", "link-title", "note", "term", "cell");
  const html = (tag) => `${tag}\n\n`;
  const r = run("prose-html");
  const blocks = [
    `<script>${r}</script>`,
    `<script src="../media/leaf.pdf"></script>`,
    `<SCRIPT/SRC="../media/leaf.pdf"></SCRIPT>`,
    `<script type="application/ld+json"></script><script>${r}</script>`,
    `<iframe src="https://${ELSEWHERE}/"></iframe>`,
    `<iframe srcdoc="<script>parent.INJECTED=1</script>"></iframe>`,
    `<object data="../media/leaf.pdf"></object>`,
    `<embed src="../media/leaf.pdf">`,
    `<svg onload="${r}"><script>${r}</script><a href="javascript:${r}"><text>x</text></a></svg>`,
    `<svg><style><img src=x onerror="${r}"></style></svg>`,
    `<math><mtext><table><mglyph><style><!--</style><img title="--&gt;&lt;img src=1 onerror=${r}&gt;">`,
    `<noscript><p title="</noscript><img src=x onerror=${r}>"></noscript>`,
    `<template><img src=x onerror="${r}"></template>`,
    `<meta http-equiv="refresh" content="0;url=https://${ELSEWHERE}/">`,
    `<base href="https://${ELSEWHERE}/">`,
    `<form action="https://${ELSEWHERE}/"><button formaction="javascript:${r}">x</button><input autofocus onfocus="${r}"></form>`,
    `<style>body { background: url(https://${ELSEWHERE}/x.png) }</style>`,
    `<link rel="stylesheet" href="https://${ELSEWHERE}/x.css">`,
    `<p style="background: url(https://${ELSEWHERE}/p.png)" onclick="${r}" id="a1">mark-prose-html</p>`,
    `<details open ontoggle="${r}"><summary>x</summary>y</details>`,
    `<p><a href="javascript:${r}">mark-prose-addresses</a> <a href=" java&#115;cript:${r}">b</a> <a href="java&Tab;script:${r}">c</a> <a href="&#1;javascript:${r}">d</a> <a href="data:text/html,<script>${r}</script>">e</a> <a href="vbscript:x">f</a></p>`,
    `<table><tr><th scope="row" onclick="${r}" colspan='2" onmouseover="${r}'>x</th><td colspan="2" style="x">y</td></tr></table>`,
    `<p id='x" onmouseover="${r}'>x</p>`,
    `<div><p lang="en"><video src="../media/week-01.webm" autoplay onplay="${r}"></video><audio src=x onerror="${r}"></audio></div>`,
    `<p>an open tag <img src=x onerror=${r} //`,
    `<!-- <script>${r}</script> --!> <img src=x onerror=${r}> -->`,
    `<![CDATA[<img src=x onerror=${r}>]]>`,
    `<?php <img src=x onerror=${r}> ?>`,
  ];
  const inline = [
    `A line with <b onclick="${r}">mark-prose-inline</b>, <a href="javascript:${r}">a link</a>, <img src=x onerror="${r}"> and <script>${r}</script>.`,
    `[a link](javascript:${r}) [spaced](<java script:${r}>) [coded](&#106;avascript:${r}) [data](data:text/html,x) <javascript:globalThis.INJECTED=1>`,
    `[a title](about.md "mark-link-title\\" onmouseover=\\"${r}")`,
    `![mark-picture" onerror="${r}](../media/counter.png "x\\" onload=\\"${r}")`,
    `![data](data:image/svg+xml,<svg/onload=${r}>)`,
    "`mark-code <script>x</script>`",
    `[published](../media/leaf.pdf) [mark-odd-name](<../media/%22%3E%3Cimg%20src=x%20onerror=INJECTED=1%3E.pdf>)`,
    `A note[^"><img src=x onerror=1>] and one more.[^n]`,
    `[^n]: mark-note <img src=x onerror="${r}">`,
    `Term <img src=x onerror="${r}">\n: mark-term <svg onload="${r}">`,
    `| a | b |\n| --- | --- |\n| mark-cell <img src=x onerror="${r}"> | <script>${r}</script> |`,
    `\`\`\`html" onmouseover="${r}\n<script>${r}</script>\n\`\`\``,
    `## A heading <img src=x onerror="${r}"> {#x" onclick="${r}}`,
    hostile("paragraph"),
  ];
  const page = (title, order, body) => `\`\`\`toml\ntitle = ${toml(title)}\nsummary = ${toml(hostile(`page-summary-${order}`))}\norder = ${order}\n\`\`\`\n${body}\n`;
  write("content/pages/blocks.md", page(hostile("page-title"), 2, `Read this.\n\n${blocks.map(html).join("")}`));
  write("content/pages/lines.md", page("Lines", 3, `Read this.\n\n${inline.map(html).join("")}`));
  // Each block alone as well: one that swallows those behind it would hide them.
  blocks.forEach((block, number) => write(`content/pages/block-${number + 1}.md`, page(`Block ${number + 1}`, 10 + number, `Read this.\n\n${block}\n\nAnd this.`)));
  edit("content/pages/about.md", ["## How it works", "[A leaflet](../media/leaf.pdf)\n\n## How it works"]);
}
