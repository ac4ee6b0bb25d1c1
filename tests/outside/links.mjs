// Every link, from the files alone: each leads to a file and a place that is there, and the pages are all reached
// from the home page.

import { readFileSync } from "node:fs";
import { join, posix } from "node:path";

import { Defects, filesOf, pagesOf, siteFolder } from "./site.mjs";

const folder = siteFolder();
const defects = new Defects("links");
const files = new Set(filesOf(folder));
const pages = new Map(pagesOf(folder).map((path) => [path, readFileSync(join(folder, path), "utf8")]));
const unescaped = (text) => text.replace(/&(amp|quot|lt|gt|#39);/g, (_, name) => ({ amp: "&", quot: '"', lt: "<", gt: ">", "#39": "'" })[name]);
const idsOf = (html) => new Set([...html.matchAll(/\sid="([^"]*)"/g)].map((match) => unescaped(match[1])));
const ids = new Map([...pages].map(([path, html]) => [path, idsOf(html)]));
const leads = new Map();
let followed = 0;

for (const [path, html] of pages) {
  const targets = new Set();
  leads.set(path, targets);
  for (const [, tag, attribute, value] of html.matchAll(/<(\w+)\b[^>]*?\s(href|src|poster)="([^"]*)"/g)) {
    const link = unescaped(value);
    if (/^(https?|mailto|tel|webcal):/.test(link)) continue;
    followed += 1;
    const [address, fragment] = link.split("#");
    const there = address === "" ? path : address.startsWith("/") ? address.slice(1) : posix.join(posix.dirname(path), address);
    const target = decodeURIComponent(there);
    if (!files.has(target)) {
      defects.add(path, `<${tag} ${attribute}="${link}"> leads to no file`);
    } else if (fragment && pages.has(target) && !ids.get(target).has(decodeURIComponent(fragment))) {
      defects.add(path, `<${tag} ${attribute}="${link}"> leads to no place on its page`);
    }
    targets.add(target);
  }
}

const reached = new Set(["index.html"]);
for (const path of reached) for (const target of leads.get(path) ?? []) reached.add(target);
for (const path of pages.keys()) {
  // What the educator pastes elsewhere is for her alone.
  const alone = path === "404.html" || path.startsWith("educator/");
  if (!alone && !reached.has(path)) defects.add(path, "no way leads here from the home page");
}
defects.finish(followed, "links");
