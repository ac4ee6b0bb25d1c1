// Captions and chapters by the parser of the WebVTT community, which reports where a file departs from the standard.
// It does not see chapters that partly overlap, so that is looked at here; and a list of broken files shows that it
// reports anything at all.

import { readFileSync } from "node:fs";
import { join } from "node:path";

import parsing from "webvtt-parser";

import { Defects, filesOf, siteFolder } from "./site.mjs";

const folder = siteFolder();
const defects = new Defects("vtt");
const parser = new parsing.WebVTTParser();
let cues = 0;

for (const path of filesOf(folder).filter((path) => path.endsWith(".vtt"))) {
  const text = readFileSync(join(folder, path), "utf8");
  const chapters = path.endsWith("-chapters.vtt");
  const parsed = parser.parse(text, chapters ? "chapters" : "captions");
  for (const error of parsed.errors) defects.add(path, `line ${error.line}, column ${error.col}: ${error.message}`);
  const arrows = text.split("\n").filter((line) => line.includes("-->")).length;
  if (parsed.cues.length === 0 || parsed.cues.length !== arrows) {
    defects.add(path, `${parsed.cues.length} cues are read, ${arrows} are written`);
  }
  cues += parsed.cues.length;
  if (!chapters) continue;
  parsed.cues.forEach((cue, at) => {
    const before = parsed.cues[at - 1];
    if (before && cue.startTime < before.endTime) defects.add(path, `chapter ${at + 1} starts before chapter ${at} ends`);
  });
}

for (const [broken, kind] of [
  ["WEBVTT\n\n00:03.000 --> 00:02.000\nHi", "captions"],
  ["WEBVTT\n\n00:01.000-->00:02.000\nHi", "captions"],
  ["WEBVTT\n\n0:1.000 --> 00:02.000\nHi", "captions"],
  ["WEBVTT\n\n00:01.000 --> 00:02.000\nTea & toast", "captions"],
  ["WEBVTT\n\n00:01.000 --> 00:02.000\n<i>Hi</i>", "chapters"],
]) {
  if (parser.parse(broken, kind).errors.length === 0) defects.add("broken file", `nothing is found in ${JSON.stringify(broken)}`);
}
defects.finish(cues, "cues");
