// The site that a check looks at: its pages, a server for it, and a list of what is wrong with it.

import { createHash } from "node:crypto";
import { createServer } from "node:http";
import { readdirSync, readFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { extname, join, normalize, relative, resolve, sep } from "node:path";

const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".ics": "text/calendar; charset=utf-8",
  ".jpg": "image/jpeg",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".pdf": "application/pdf",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".vtt": "text/vtt; charset=utf-8",
  ".webp": "image/webp",
  ".woff2": "font/woff2",
  ".xml": "application/xml",
};

/** The folder that the command line names. */
export function siteFolder() {
  const folder = process.argv[2];
  if (!folder) {
    console.error(`usage: node ${relative(".", process.argv[1])} FOLDER [PATTERN]`);
    process.exit(2);
  }
  return resolve(folder);
}

/** Every file of a folder, as paths with `/`, sorted. */
export function filesOf(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)).split(sep).join("/"))
    .sort();
}

/** Every page of a site. A folder without one is a mistake of whoever called. */
export function pagesOf(folder) {
  const pages = filesOf(folder).filter((path) => path.endsWith(".html"));
  if (pages.length === 0) throw new Error(`no page in ${folder}`);
  return pages;
}

/** How many of the pages that are alike but for the entry that they are of. */
const FEW = 6;
/** Those that an exercise or a video has besides its own page. */
const ALIKE = [/^exercises\/practice\//, /-transcript\.html$/];

/** The pages to look at in a browser, which takes long: all of a site, but of those that are alike a few. */
export function lookedAt(folder) {
  const pages = pagesOf(folder);
  const more = ALIKE.flatMap((kind) => pages.filter((path) => kind.test(path)).slice(FEW));
  return pages.filter((path) => !more.includes(path));
}

/** A morning of the week in which a site was made, of which its first page says what is now. */
export function builtOn(folder) {
  const shown = readFileSync(join(folder, "index.html"), "utf8").match(/data-now="([^"]*)" data-until="([^"]*)">/);
  if (!shown) throw new Error("the first page shows no week");
  const [, from, until] = shown;
  return from ? `${from}T10:00:00` : `${new Date(Date.parse(until) - 86_400_000).toISOString().slice(0, 10)}T10:00:00`;
}

/** What a page's policy calls a script that stands in the page: the hash of its text. */
export function sourceOf(text) {
  return `'sha256-${createHash("sha256").update(text).digest("base64")}'`;
}

/** Serves a folder on a free port of this computer alone. Answers `{ address, close }`. */
export async function serve(folder) {
  const server = createServer(async (request, response) => {
    const path = decodeURIComponent(new URL(request.url, "http://localhost").pathname);
    const inside = normalize(path.endsWith("/") ? `${path}index.html` : path).replace(/^(\.\.[/\\])+/, "");
    const send = (status, name, bytes) => {
      const type = TYPES[extname(name)] ?? "application/octet-stream";
      // A player asks for the part of a file that it jumps to.
      const range = /^bytes=(\d+)-(\d*)$/.exec(request.headers.range ?? "");
      const headers = { "content-type": type, "cache-control": "no-store", "accept-ranges": "bytes" };
      if (!range) return response.writeHead(status, headers).end(bytes);
      const [from, to] = [Number(range[1]), range[2] === "" ? bytes.length - 1 : Math.min(Number(range[2]), bytes.length - 1)];
      headers["content-range"] = `bytes ${from}-${to}/${bytes.length}`;
      response.writeHead(206, headers).end(bytes.subarray(from, to + 1));
    };
    try {
      send(200, inside, await readFile(join(folder, inside)));
    } catch {
      const page = await readFile(join(folder, "404.html")).catch(() => "not found");
      send(404, "404.html", page);
    }
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  return {
    address: `http://127.0.0.1:${server.address().port}/`,
    close: () => {
      server.closeAllConnections();
      return new Promise((closed) => server.close(closed));
    },
  };
}

/** What a check finds wrong. With a pattern on the command line it ends at the first defect that fits. */
export class Defects {
  #lines = new Set();
  #last;

  /** `pattern`: the check ends at the first defect that it fits. */
  constructor(check, pattern = process.argv[3]) {
    this.#last = pattern && new RegExp(pattern);
    this.check = check;
    this.start = Date.now();
  }

  add(where, what) {
    const line = `${where}: ${what}`;
    this.#lines.add(line);
    if (this.#last?.test(line)) this.finish(1, "defect looked for");
  }

  /** Prints the defects and ends the process: 1 with a defect, 2 when nothing was looked at. */
  finish(looked, things) {
    for (const line of this.#lines) console.log(line);
    const seconds = ((Date.now() - this.start) / 1000).toFixed(1);
    const found = this.#lines.size === 0 ? "no defect" : `${this.#lines.size} defects`;
    console.log(`${this.check}: ${looked} ${things}, ${found}, ${seconds} s`);
    process.exit(this.#lines.size > 0 ? 1 : looked > 0 ? 0 : 2);
  }
}
