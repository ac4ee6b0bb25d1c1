// The Nu validator on every page, style sheet and drawing. A warning counts as a defect.

import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import { join } from "node:path";

import { Defects, filesOf, siteFolder } from "./site.mjs";

const JAR = createRequire(import.meta.url).resolve("vnu-jar/build/dist/vnu.jar");
const KINDS = { ".html": "--html", ".css": "--css", ".svg": "--svg" };
// It reads from the disk, where it takes a page's own style sheets for a breach of the page's policy; whether they
// are applied is seen in the browser.
const NOT_SO = /violates Content Security Policy/;

const folder = siteFolder();
const defects = new Defects("validator");
let looked = 0;

for (const [ending, flag] of Object.entries(KINDS)) {
  const files = filesOf(folder).filter((path) => path.endsWith(ending));
  if (files.length === 0) defects.add(folder, `has no ${ending} file`);
  looked += files.length;
  const paths = files.map((path) => join(folder, path));
  const run = spawnSync("java", ["-jar", JAR, flag, "--no-langdetect", "--format", "json", "--stdout", "--exit-zero-always", ...paths], {
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  if (run.status !== 0) throw new Error(`the validator ended with ${run.status}: ${run.stderr}`);
  for (const { type, subType, url, lastLine, message } of JSON.parse(run.stdout).messages) {
    const counts = type !== "info" || subType === "warning";
    if (!counts || NOT_SO.test(message)) continue;
    const where = url ? url.slice(url.indexOf(folder) + folder.length + 1) : folder;
    defects.add(`${where}, line ${lastLine}`, `${subType ?? type}: ${message}`);
  }
}
defects.finish(looked, "files");
