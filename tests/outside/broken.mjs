// The checks checked: each must find what is broken on purpose in a copy of a few pages of the site.

import { spawn } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

import { Defects, filesOf, siteFolder, sourceOf } from "./site.mjs";

const HOME = "index.html";
const LIBRARY = "exercises/index.html";
const MY_DAYS = "my-days.html";
const SAVED = "saved.html";
const WEEK = "series/lantern-hill/week-07.html";
const EXERCISE = "exercises/heel-drop.html";
const COLOURS = "style/colours.css";
const TEXT = "style/text.css";
const PRACTICE = "every page that counts";
const OWN = "every page of a person";

const replace = (path, old, now) => ({ path, edit: (text) => text.replace(old, now) });
const append = (path, more) => ({ path, edit: (text) => `${text}\n${more}\n` });
const remove = (path) => ({ path, edit: () => null });
const after = (path, tag, more) => replace(path, tag, (found) => found + more);
// A script stands in its page, and the page's policy names its hash: both change, or no browser would run it.
const script = (path, name, change) => ({
  path,
  edit: (html) => {
    const [element, text] = new RegExp(`<script data-name="${name}">([^]*?)</script>`).exec(html);
    const now = change(text);
    return html.replace(sourceOf(text), () => sourceOf(now)).replace(element, () => element.replace(text, () => now));
  },
});
// The scripts of practice stand in every page that counts.
const practice = (name, old, now) => script(PRACTICE, name, (text) => text.replace(old, now));
const library = (old, now) => script(LIBRARY, "library", (text) => text.replace(old, now));
const alsoDo = (more) => script(LIBRARY, "library", (text) => `${text}\n${more}\n`);
const days = (name, old, now) => script(MY_DAYS, name, (text) => text.replace(old, now));
const own = (name, old, now) => script(OWN, name, (text) => text.replace(old, now));
const saved = (old, now) => script(SAVED, "saved", (text) => text.replace(old, now));
const keep = (old, now) => replace("script/keep.js", old, now);
const now = (change) => script(HOME, "now", change);
const H1 = /<h1[^>]*>[^<]*<\/h1>/;

// The check, what is broken, and what the check must say.
const CASES = [
  ["axe", replace(COLOURS, /--ink: #\w+/, "--ink: #8a8a8a"), /320 px: color-contrast-enhanced/],
  ["axe", replace(COLOURS, /(dark \*\/[^]*?)--ink: #\w+/, "$1--ink: #8a8a8a"), /dark: color-contrast-enhanced/],
  ["axe", after(HOME, H1, '<img src="style/mark.svg">'), /image-alt/],
  ["axe", replace(HOME, /<html[^>]*>/, "<html>"), /html-has-lang/],
  ["scroll", append(TEXT, "h1 { min-width: 30rem; }"), /scrolls sideways/],
  ["scroll", append(TEXT, "h1 { height: 0.5rem; overflow: hidden; }"), /cut off below/],
  ["scroll", append(TEXT, "h1 { white-space: nowrap; overflow: auto; }"), /not by keyboard/],
  ["keyboard", append(TEXT, "a:focus-visible { outline: none !important; }"), /no ring/],
  ["keyboard", append(TEXT, "a:focus-visible { outline-color: var(--panel) !important; }"), /ring of contrast 1\./],
  ["keyboard", append(TEXT, "body::after { content: ''; position: fixed; inset: 0; z-index: 9; }"), /is covered by/],
  ["keyboard", append(TEXT, ".menu a { min-height: 0 !important; padding: 0 !important; }"), /is [\d.]+ by [\d.]+ px/],
  ["keyboard", after(HOME, H1, '<p><a href="safety.html" tabindex="-1">Safety, and more</a></p>'), /not reached by Tab/],
  ["keyboard", after(HOME, H1, '<p><a href="safety.html" tabindex="2">Safety, and more</a></p>'), /order of the page/],
  ["library", library("found += 1", "found += 2"), /announces/],
  ["library", library("item.hidden = !match", "item.hidden = false"), /shows \d+ entries, expected/],
  ["library", library(/\.replace\(\/\\p\{Mn\}\/gu, ""\)/, ""), /search for/],
  ["library", library("history.replaceState", "void"), /the address keeps/],
  ["library", library(/^recall\(\);/m, ""), /an address with a choice/],
  ["library", replace(LIBRARY, 'id="count" role="status"', 'id="count"'), /live region/],
  ["library", replace(LIBRARY, /(<form [^>]*?) hidden/, "$1"), /without scripts the form/],
  ["library", replace(LIBRARY, /<li data-component/, "<li hidden data-component"), /without scripts "/],
  ["policy", after(HOME, H1, '<img src="https://elsewhere.example/a.png" alt="a">'), /console: .*Content Security Policy/],
  ["policy", after(HOME, H1, "<script>document.title = 'mine';</script>"), /console: .*Content Security Policy/],
  ["policy", after(HOME, H1, '<script src="script/keep.js"></script>'), /console: .*Content Security Policy/],
  ["policy", replace(LIBRARY, /^recall\(\);/m, ""), /its script did not run/],
  ["policy", replace(HOME, "script-src ", "script-src 'self' "), /allows scripts which it does not name/],
  ["policy", replace(HOME, "object-src 'none'; ", ""), /leaves object-src open/],
  ["policy", replace(HOME, /<meta http-equiv="Content-Security-Policy"[^>]*>/, '<link rel="stylesheet" href="https://elsewhere.example/a.css">'), /asks for https:/],
  ["policy", replace(HOME, "style/text.css", "style/other.css"), /answers 404/],
  ["policy", replace(HOME, 'href="style/text.css"', 'href="/style/text.css"'), /from the disk: .*(fails|not applied)/],
  ["policy", alsoDo("document.querySelector('h1').textContent = 'A line of the script';"), /loses "A line of the script"/],
  ["policy", alsoDo("nothing.at.all;"), /script: nothing is not defined/],
  ["practice", practice("practice", /showList\(\);\n\}\)\(\);/, "begin(open()[0]);\n})();"), /asked too late|does not begin with what comes before|says something before/],
  ["practice", practice("practice", "if (document.hidden) return pause", "if (false) return pause"), /speaks to nobody|counts while nobody looks/],
  ["practice", practice("practice", "if (!played.has(step.part)) sets.delete", "if (false) sets.delete"), /a skipped set is written down/],
  ["practice", practice("practice", /return parts\.map[^]*?join\("-"\);/, "return day.toISOString().slice(0, 10);"), /which is not her day/],
  ["practice", practice("practice", 'onClick("stop", stop);', ""), /Stop shows no signs/],
  ["practice", practice("practice", "const own = found(exercise);", "const own = exercise.forms[0];"), /not the form that is hers/],
  ["practice", practice("practice", "if (!hasSaid()) return forms;", "return forms;"), /offers what may not be hers/],
  ["practice", practice("practice", "if (now - announced < QUIET) return;", "setInterval(() => put('status', String(clock.now())), 500);"), /announces too often|script:/],
  ["practice", practice("practice_steps", "const each = work / count;", "const each = (work / count) * 1.02;"), /ms late/],
  ["practice", practice("practice_steps", "const LAST = [3, 2, 1];", "const LAST = [2, 1];"), /in place of|says \d+ things/],
  ["practice", practice("practice_steps", "return [String(step.rep),", "return [String(step.rep + 1),"), /shows \d+ at/],
  ["practice", practice("practice_voice", "one.localService && ", ""), /speaks with the voice "far"/],
  ["practice", practice("practice_voice", "else tone(kind);", ""), /0 tones/],
  ["practice", practice("practice_figure", "held.drawing.setCurrentTime(wanted)", "held.drawing.getCurrentTime()"), /the figure is at/],
  ["practice", practice("practice_log", "box.done, ...shared", "...shared"), /writes down|is written down/],
  ["practice", append("style/practice.css", ".practice-foot { position: static !important; }"), /Stop is out of reach/],
  ["practice", append("style/practice.css", ".practice-call { position: static !important; }"), /out of sight/],
  ["practice", append("style/practice.css", ".form-parts { display: none !important; }"), /the parts are lost/],
  ["links", after(HOME, H1, '<a href="no-such-page.html">a</a>'), /leads to no file/],
  ["links", after(HOME, H1, '<a href="safety.html#no-such-place">a</a>'), /leads to no place/],
  ["links", remove("safety.html"), /leads to no file/],
  ["links", { path: "alone.html", edit: () => "<!DOCTYPE html><title>Alone</title>" }, /no way leads here/],
  ["pages", append("style/frame.css", ".head { padding-bottom: 6rem; }"), /the head takes/],
  ["pages", append(TEXT, ".exercise-body { padding-bottom: 60rem; }"), /exercises\/.* screens long/],
  ["pages", append(TEXT, "article.exercise { padding-bottom: 20rem; }"), /week-\d+\.html: is .* screens long/],
  ["pages", append(TEXT, ".main { padding-top: 45rem !important; }"), /its first picture ends/],
  ["pages", append(TEXT, ".section.move { padding-top: 45rem; }"), /its first step ends/],
  ["pages", replace(WEEK, /<span class="spoken">: [^<]*<\/span>/g, ""), /two have the name/],
  ["pages", now((text) => text.replace("today < until", "today <= until")), /shows 2 weeks/],
  ["pages", now((text) => text.replace("now.getDate()", "now.getUTCDate()")), /shows part \d+ of the days/],
  ["pages", now((text) => text.replace("part.hidden = !here", "part.hidden = false")), /shows \d+ weeks/],
  ["pages", replace(WEEK, /id="exercise\./g, 'id="other.'), /leads to .*, where the exercise is not/],
  ["pages", replace(EXERCISE, /<strong>This week: /g, "<strong>This week: 99 and "), /says "This week: 99/],
  ["pages", replace(HOME, /(<p class="soft">)[^<]*/g, "$1"), /without scripts it shows no week with its date/],
  ["pages", append(TEXT, "@media (scripting: enabled) { .filter[hidden] { display: none !important; } }"), /exercises\/index\.html: moves by/],
  ["validator", after(HOME, H1, "</section>"), /index\.html, line \d+: error/],
  ["validator", append(TEXT, "h1 { colour: red; }"), /text\.css, line \d+: error/],
  ["validator", replace("style/mark.svg", "<svg ", '<svg wide="1" '), /mark\.svg, line \d+: error/],
  ["days", days("mydays", "whom(item, radio.value, true);", ""), /does not show whom to call/],
  ["days", replace(MY_DAYS, /(<template data-trouble="fall">[^]*?)href="tel:/, '$1href="safety.html#'), /does not show the emergency number/],
  ["days", days("dayschart", "done: counted", "done: counted + 1"), /the chart says/],
  ["days", days("daysfile", '"version": ${VERSION}', '"version": "1"'), /the file breaks the schema/],
  ["days", days("days", "store.put(entry)", "store.put({ ...entry, effort: 1 })"), /differs from what was saved/],
  ["days", days("daysfile", /if \(found\.includes[^\n]*\n\s*return found;/, "return found.filter(Boolean);"), /one bad among good/],
  ["days", days("days", "isWhole(value, 0, 10)", "isWhole(value, 0, 11)"), /the page takes it, the schema does not agree/],
  ["days", days("days", "channel?.postMessage(what)", ""), /the other window does not show/],
  ["days", days("mydays", 'error.kind === "gone"', 'error.kind === "never"'), /taken off there is lost/],
  ["days", days("mydays", "those.every(isBare)", "true"), /taken off without a question/],
  ["days", days("dayscopy", 'isLong ? say("long_body") : said', "said"), /too long for a mail/],
  ["days", days("days", "void store.clear()", "void store"), /not everything is erased/],
  ["days", days("days", 'QuotaExceededError: "full"', 'QuotaExceededError: "broken"'), /without room the page says/],
  ["days", days("mydays", "if (unkept.size > 0) event.preventDefault();", ""), /the page closes without a word/],
  ["days", days("days", "return Number(localStorage.getItem(NAME)) || 0", "return 0"), /cleared while away/],
  ["days", days("mydays", "entry.on > today)", 'entry.on > "9")'), /with the clock set back/],
  ["days", append("style/days.css", ".main:has(> .mydays[hidden]) { min-height: 0; }"), /the page moves by/],
  ["days", append("style/days.css", ".went > summary { min-height: 0 !important; padding: 0 !important; }"), /too small at/],
  ["days", replace(MY_DAYS, /<noscript>[^]*?<\/noscript>/, ""), /without scripts there is no week/],
  ["onepage", own("days", "document.documentElement.dataset.days", "null"), /sees the days of somebody else/],
  ["onepage", own("practice", "box.checked = days.includes(weekday)", "box.checked = true"), /not what is planned for today/],
  ["onepage", own("practice", "const isWanted = ({ box }) => box === null || box.checked", "const isWanted = () => true"), /Start on a day of rest/],
  ["onepage", own("practice_log", 'document.dispatchEvent(new Event("practiced"))', ""), /My days does not show what was done/],
  ["onepage", own("daysweek", "if (one?.goes_on)", "if (false)"), /before its week/],
  ["onepage", own("mydays", "form: daysWeek.formOf(id)", "form: null"), /checked off as/],
  ["onepage", own("practice_steps", "case \"go\":\n        return String(step.rep)", "case \"go\":\n        return String(step.rep + 1)"), /in place of/],
  ["onepage", after(OWN, H1, '<img src="https://hill.example/a.png" alt="">'), /asks for https/],
  ["onepage", replace(OWN, /<div class="own-paper">/, '<div class="own-paper" hidden>'), /there is no grid|not printed/],
  ["onepage", replace(OWN, /<h1[^>]*>/, '<h1 style="color: #999">'), /Content Security Policy/],
  ["onepage", replace(OWN, "</main>", `<!--${"x".repeat(400_000)}--></main>`), /expected fewer than/],
  ["offline", saved('else localStorage.setItem(WISH, "no")', "else void WISH"), /saves it all again unasked/],
  ["offline", saved(/(function focus\(\) \{)[^]*?\n {2}\}/, "$1}"), /the focus is nowhere/],
  ["offline", saved('pages: ending(".html")', 'pages: ending(".html") + 1'), /says "[^"]*" of/],
  ["offline", saved('return show("file")', "return"), /expected "file"/],
  ["offline", keep("(await caches.has(current)) ? await caches.open(current) : null", "await caches.open(current)"), /puts something back/],
  ["offline", keep('isFull(error) ? "full" : "network"', '"network"'), /expected "full"/],
  ["offline", replace("worker.js", /"pages\/[^"]*",/, ""), /of the menu is not kept/],
];

/** So many breaks of checks that take long come with every run; all of them where the environment says STEADYLEAF_BREAKS=all. */
const FEW = { days: 4, offline: 3, onepage: 3, pages: 1, practice: 3 };
const isOf = (check) => ([other]) => other === check;
const few = Object.entries(FEW).flatMap(([check, most]) => CASES.filter(isOf(check)).slice(most));
const chosen = process.env.STEADYLEAF_BREAKS === "all" ? CASES : CASES.filter((one) => !few.includes(one));

const site = siteFolder();
const defects = new Defects("broken on purpose");
const checks = dirname(fileURLToPath(import.meta.url));
const waiting = chosen.entries();
await Promise.all([worker(), worker()]);
defects.finish(chosen.length, "breaks");

async function worker() {
  for (const [number, [check, { path, edit }, expected]] of waiting) {
    const folder = mkdtempSync(join(tmpdir(), "broken-"));
    if (check === "onepage") cpSync(process.env.STEADYLEAF_PAGES, folder, { recursive: true });
    else copySome(check, folder);
    const name = `${check}, break ${number + 1} in ${path}`;
    const some = { [PRACTICE]: counts, [OWN]: (one) => one.endsWith(".html") }[path];
    for (const one of some ? filesOf(folder).filter(some) : [path]) {
      const file = join(folder, one);
      const before = existsSync(file) ? readFileSync(file, "utf8") : "";
      const broken = edit(before);
      if (broken === before) defects.add(name, "changes nothing");
      if (broken === null) rmSync(file);
      else writeFileSync(file, broken);
    }
    const { code, output } = await run(check, folder, expected.source);
    if (code !== 1) defects.add(name, `ends with ${code}: ${output.slice(-300)}`);
    if (!expected.test(output)) defects.add(name, `says nothing like ${expected}: ${output.slice(0, 300)}`);
    rmSync(folder, { recursive: true });
  }
}

/** True for a page that counts. */
function counts(path) {
  return path.includes("exercises/practice/") ? path.endsWith(".html") : path.endsWith("week-01-practice.html");
}

/**
 * The home page, the library, the not-found page and what they load; every page where links are followed, all is kept or days change;
 * those that count where they are counted.
 */
function copySome(check, folder) {
  const pages = [HOME, LIBRARY, MY_DAYS, "404.html", "safety.html"];
  const own = (path) => (check === "practice" ? counts(path) : pages.some((page) => path === join(site, page)));
  const wanted = (path) => !path.endsWith(".html") || ["links", "offline", "pages"].includes(check) || own(path);
  for (const name of readdirSync(site)) {
    cpSync(join(site, name), join(folder, name), { recursive: true, filter: wanted });
  }
}

function run(check, folder, pattern) {
  return new Promise((done) => {
    const child = spawn(process.execPath, [join(checks, `${check}.mjs`), folder, pattern]);
    let output = "";
    child.stdout.on("data", (part) => (output += part));
    child.stderr.on("data", (part) => (output += part));
    child.on("close", (code) => done({ code, output }));
  });
}
