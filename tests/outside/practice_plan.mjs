// Practice now on a clock of ours: what runs in its page before its scripts, and what is to be said and shown, worked out from
// the parts that the page carries.

/** How late a tick of the page may be, in milliseconds. */
export const LATE = 30;
/** In the evening of February 15 in New York it is the 16th by world time. */
export const EVENING = Date.parse("2027-02-16T02:00:00Z");

/** Runs in the page, before its scripts: time passes when we say so, and no sooner. */
export function takeTime(begin) {
  let [time, last] = [0, 0];
  const waiting = new Map();
  const put = (object, name, value) => Object.defineProperty(object, name, { value, configurable: true });
  const after = (work, delay = 0) => waiting.set((last += 1), { at: time + Math.max(delay, 0), work }) && last;
  put(performance, "now", () => time);
  put(window, "setTimeout", after);
  put(window, "clearTimeout", (id) => waiting.delete(id));
  put(window, "requestAnimationFrame", (work) => after(() => work(time), 16));
  const Real = Date;
  put(window, "Date", class extends Real {
    constructor(...parts) {
      if (parts.length === 0) super(begin + time);
      else super(...parts);
    }
  });
  window.pass = async (length) => {
    const end = time + length;
    for (;;) {
      const due = [...waiting].filter(([, { at }]) => at <= end).sort(([, one], [, other]) => one.at - other.at)[0];
      if (due === undefined) break;
      const [id, { at, work }] = due;
      waiting.delete(id);
      time = Math.max(time, at);
      work();
      // What waits for a promise comes before the next timer.
      for (let turn = 0; turn < 8; turn += 1) await null;
    }
    time = end;
  };
  /** The device sleeps: no timer fires until it is awake. */
  window.sleep = (length) => {
    time += length;
  };
}

/** Runs in the page, before its scripts. */
export function install({ voice, lock, days, yours }) {
  const told = { said: [], tones: [], shown: [], status: [], kept: [], locks: 0, released: 0 };
  window.told = told;
  const now = () => performance.now();
  const put = (object, name, value) => Object.defineProperty(object, name, { value, configurable: true });
  put(window, "SpeechSynthesisUtterance", class { constructor(text) { this.text = text; } });
  put(window, "speechSynthesis", {
    // The first is that of a distant service, the second another language.
    getVoices: () => [
      { lang: "en-US", localService: false, default: true, name: "far" },
      { lang: "de-DE", localService: true, default: false, name: "other" },
      ...(voice ? [{ lang: voice, localService: true, default: false, name: "own" }] : []),
    ],
    speak: (words) => told.said.push({ at: now(), text: words.text, voice: words.voice.name }),
    cancel() {},
    speaking: false,
    pending: false,
    addEventListener() {},
  });
  const node = () => ({ connect: (other) => other, frequency: {}, gain: { setValueAtTime() {}, exponentialRampToValueAtTime() {} } });
  put(window, "AudioContext", class {
    state = "running";
    currentTime = 0;
    resume() {
      return Promise.resolve();
    }
    createGain = node;
    createOscillator = () => ({ ...node(), start: () => told.tones.push(now()), stop() {} });
  });
  const request = async () => {
    if (!lock) throw new DOMException("no", "NotAllowedError");
    told.locks += 1;
    return { addEventListener() {}, release: async () => { told.released += 1; } };
  };
  put(navigator, "wakeLock", { request });
  // The page's own keeping of days, and what it knows of her, or what stands in their places here.
  if (days !== "own") besides();
  function besides() {
    if (days) put(window, "days", { add: async (entry) => { if (days === "full") throw new Error("full"); told.kept.push(entry); } });
    // Of the script that may stand beside it nothing is asked here.
    if (!days) Object.defineProperty(window, "days", { get: () => undefined, set() {}, configurable: false });
    window.given = yours;
    const formOf = (id) => (window.given === null ? undefined : window.given[id]);
    // What she has said beside it is kept from the page: of an exercise that is not given she has said nothing.
    const own = { formOf, said: () => window.given !== null, has: () => false, show() {} };
    Object.defineProperty(window, "yours", { get: () => own, set() {}, configurable: false });
  }
  window.record = () => {
    const text = (name) => document.getElementById(`practice.${name}`).textContent;
    let before = "";
    const look = () => {
      const seen = { number: text("number"), unit: text("unit"), now: text("now"), set: text("set"), next: text("next") };
      told.shown.push({ at: now(), ...seen, bar: parseFloat(document.getElementById("practice.bar").style.width) });
      const status = text("status");
      if (status !== before) told.status.push({ at: now(), text: status });
      before = status;
      setTimeout(look, 250);
    };
    look();
  };
}

/** Runs in the page: all exercises are wanted, whatever the plan has for the day. */
export function wantAll() {
  for (const box of document.querySelectorAll("[id='practice.list'] [type=checkbox]")) if (!box.checked) box.click();
}

/** Runs in the page. What it carries: for each exercise its forms with their parts and the lines of these, and its words. */
export function carried() {
  const data = JSON.parse(document.getElementById("practice.data").textContent);
  const asked = [...document.querySelectorAll("#practice .practice-asked")];
  const staged = document.querySelector(".practice-stage .practice-form");
  if (staged) throw new Error("asked too late");
  data.exercises.forEach((exercise, index) => {
    const articles = asked[index].querySelectorAll(".practice-form");
    exercise.forms.forEach((form, place) => {
      form.title = articles[place].querySelector("h3").textContent;
      form.lines = [...articles[place].querySelectorAll(".form-parts li")].map((line) => line.textContent);
    });
  });
  return data;
}

/** What is to happen in a form: moments at which something is said, and spans in which something is shown. */
export function planned(form, words, speed = 1, { parts, lines } = form) {
  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const said = [];
  const spans = [];
  let time = 0;
  const sets = 1 + parts.filter(([kind]) => kind === "rest").length;
  let set = 1;
  const say = (text, kind) => said.push({ at: time, text, kind });
  const wait = (kind, length, more) => {
    spans.push({ kind, from: time, to: time + length, sets, set, ...more });
    for (const second of [3, 2, 1]) {
      const counts = more.counts ?? length > 4000;
      if (counts) said.push({ at: time + length - second * 1000, text: String(second), kind: "last" });
    }
    time += length;
  };
  const work = (kind, length, more) => {
    spans.push({ kind, from: time, to: time + length, sets, set, ...more });
    time += length;
  };
  parts.forEach(([kind, ...rest], part) => {
    const line = lines[part];
    const one = { part, line, next: lines[part + 1] };
    if (kind === "ready") say(fill(words.ready, { title: form.title, part: line }), "word");
    if (kind === "rest") {
      set += 1;
      say(`${line}. ${fill(words.next_set, { n: set, m: sets })}`, "word");
    }
    if (kind === "change" || kind === "time") say(line, "word");
    if (kind !== "reps") return wait(kind, rest[0], one);
    const [count, all, hold, pause] = rest;
    const each = all / count;
    const way = (each - hold) / 2;
    for (let rep = 1; rep <= count; rep += 1) {
      const own = { ...one, rep, count };
      if (hold >= each) {
        say(count === 1 ? line : fill(words.hold_number, { n: rep }), "number");
        wait("held", each, { ...own, counts: each >= 10_000 });
      } else if (hold > 0) {
        say(way < 800 ? fill(words.hold_number, { n: rep }) : String(rep), "number");
        work("go", way / speed, own);
        if (way >= 800) say(words.hold, "number");
        wait("hold", hold, { ...own, counts: hold >= 10_000 });
        if (way >= 800) say(words.back, "number");
        work("back", way / speed, own);
      } else {
        say(String(rep), "number");
        work("go", each / speed, own);
      }
      if (pause > 0 && rep < count) {
        if (pause >= 5000) say(words.do_rest, "number");
        wait("pause", pause, own);
      }
    }
  });
  return { said: said.sort((a, b) => a.at - b.at), spans, length: time };
}

/** What was said from `start` on beside what was to be said; the last is what ends an exercise. */
export function compareSaid(expect, where, said, plan, start, ending) {
  const expected = [...plan.said, { at: plan.length, text: ending }];
  expect(where, said.length === expected.length, `says ${said.length} things, expected ${expected.length}`);
  for (let index = 0; index < Math.min(said.length, expected.length); index += 1) {
    const [own, wanted] = [said[index], expected[index]];
    const late = own.at - start - wanted.at;
    expect(where, own.text === wanted.text, `says "${own.text}" in place of "${wanted.text}" at ${Math.round(wanted.at / 1000)} s`);
    expect(where, late > -1 && late < LATE, `says "${own.text}" ${Math.round(late)} ms late`);
    expect(where, own.voice === "own", `speaks with the voice "${own.voice}"`);
    if (own.text !== wanted.text) return;
  }
}

/** What was shown, wherever it is not within a tick of a change. */
export function compareShown(expect, where, shown, plan, start, words) {
  const seen = new Set();
  for (const picture of shown) {
    const time = picture.at - start;
    const span = plan.spans.find(({ from, to }) => time > from + LATE && time < to - LATE);
    if (span === undefined) continue;
    seen.add(span);
    const seconds = (span.to - time) / 1000;
    const counted = span.rep !== undefined && span.kind !== "pause"
      && !(span.kind === "held" && (span.count === 1 || span.to - span.from >= 10_000));
    const [minutes, rest] = picture.number.split(":");
    const number = rest === undefined ? Number(picture.number) : Number(minutes) * 60 + Number(rest);
    const right = counted ? picture.number === String(span.rep) : Math.abs(number - seconds - 0.5) < 0.8;
    expect(where, right, `shows ${picture.number} at ${seconds.toFixed(1)} s before the end of "${span.line}"`);
    const doing = { held: "hold", pause: "rest" }[span.kind] ?? span.kind;
    expect(where, picture.now.startsWith(words[`do_${doing}`]), `says "${picture.now}" in "${span.line}" (${span.kind})`);
    const next = span.next === undefined ? words.next_end : words.next.replace("{what}", span.next);
    expect(where, picture.next === next, `says "${picture.next}" in place of "${next}"`);
    const set = span.sets > 1 ? words.set.replace("{n}", span.set).replace("{m}", span.sets) : "";
    expect(where, picture.set.startsWith(set), `says "${picture.set}" in set ${span.set} of ${span.sets}`);
    const all = plan.spans.filter(({ part }) => part === span.part);
    const share = (time - all[0].from) / (all.at(-1).to - all[0].from);
    expect(where, Math.abs(picture.bar / 100 - share) < 0.12, `the bar of "${span.line}" is at ${picture.bar} %, expected ${(share * 100).toFixed(0)}`);
  }
  const missed = plan.spans.filter((span) => span.to - span.from > 800 && !seen.has(span));
  for (const span of missed) expect(where, false, `"${span.line}" was never seen (${span.kind} ${span.rep ?? ""})`);
}
