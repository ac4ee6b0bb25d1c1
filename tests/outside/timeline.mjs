// Practice now in a browser whose clock is ours: the clock, the voice and the lock that a page gets, and what is to happen in a
// form, worked out a second time from the parts that the page carries.

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

/** Runs in the page, before its scripts. `days` is what keeps them, or "own" for the page's own. */
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
  if (days === "own") return record();
  if (days) put(window, "days", { add: async (entry) => { if (days === "full") throw new Error("full"); told.kept.push(entry); } });
  // Of the script that may stand beside it nothing is asked here.
  if (!days) Object.defineProperty(window, "days", { get: () => undefined, set() {}, configurable: false });
  window.given = yours;
  const formOf = (id) => (window.given === null ? undefined : window.given[id]);
  // What she has said beside it is kept from the page: of an exercise that is not given she has said nothing.
  const own = { formOf, said: () => window.given !== null, has: () => false, show() {} };
  Object.defineProperty(window, "yours", { get: () => own, set() {}, configurable: false });
  record();

  function record() {
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
