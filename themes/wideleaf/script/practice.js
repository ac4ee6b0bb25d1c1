// Counts exercises out: one at a time, by the parts that the page carries, with a voice, tones and a large number. It starts
// when she presses Start, waits for her between two exercises, and pauses when nobody looks. Without this script the page
// lists the same parts with their seconds.

(() => {
  const data = JSON.parse(document.getElementById("practice.data").textContent);
  const words = data.words;
  const root = document.getElementById("practice");
  const at = (name) => document.getElementById(`practice.${name}`);
  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const put = (element, text) => {
    if (element.textContent !== text) element.textContent = text;
  };

  /** All time comes from here, so that a test can let it pass as it likes. */
  const clock = {
    now: () => performance.now(),
    soon: (work) => setTimeout(work, 100),
    never: (timer) => clearTimeout(timer),
    frame: (work) => requestAnimationFrame(work),
    today() {
      const day = new Date();
      const two = (number) => String(number).padStart(2, "0");
      return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
    },
  };

  /** Time that passed unseen, while the device slept, is not counted. */
  const LONGEST_STEP = 1000;
  /** Seconds before the end of a wait that are counted aloud. */
  const LAST = [3, 2, 1];
  /** A hold is counted down from this length on. */
  const LONG_HOLD = 10_000;
  /** Shorter than this is no time for a number and a word. */
  const SHORT = 800;
  const SPEEDS = [0.6, 0.8, 1, 1.2];
  const AS_PLANNED = 2;
  /** A movement that is not counted goes once to and fro in this time. */
  const STROLL = 4000;
  /** No announcement follows another sooner. */
  const QUIET = 3000;

  // What she chose on this device.

  const settings = { speed: AS_PLANNED, sound: true, voice: true };
  try {
    const kept = JSON.parse(localStorage.getItem("practice") ?? "{}");
    if (kept.speed in SPEEDS) settings.speed = kept.speed;
    for (const name of ["sound", "voice"]) if (typeof kept[name] === "boolean") settings[name] = kept[name];
  } catch {
    // A device that keeps nothing, or what somebody else has written there.
  }
  function keep() {
    try {
      localStorage.setItem("practice", JSON.stringify(settings));
    } catch {
      // It holds for this visit.
    }
  }

  // The exercises and their forms, as the page has them.

  const plain = [...at("plain").querySelectorAll(".practice-asked")];
  const exercises = data.exercises.map((exercise, index) => {
    const articles = [...plain[index].querySelectorAll(".practice-form")];
    const forms = exercise.forms.map((form, place) => {
      const article = articles[place];
      const lines = [...article.querySelectorAll(".form-parts li")].map((line) => line.textContent);
      const title = article.querySelector("h3").textContent;
      const hints = [...article.querySelectorAll(".form-hints p")].map((hint) => hint.textContent);
      return { ...form, article, lines, title, hints, home: article.parentNode, before: article.nextSibling };
    });
    return { id: exercise.id, forms, line: at("list").children[index] };
  });

  /** The place of the form that is hers, as far as she has said what is true for her; -1 where none is. */
  function hers(exercise) {
    const form = window.yours?.formOf?.(exercise.id);
    if (form === undefined) return 0;
    if (form === null) return -1;
    return exercise.forms.findIndex((own) => own.exercise === form.exercise && own.variation === (form.variation ?? null));
  }
  const hasSaid = (exercise) => window.yours?.formOf?.(exercise.id) !== undefined;

  /** The easier forms that she may take: where she has said what is true for her, those that are hers. */
  function easierOf(exercise, form) {
    const places = form.easier ?? [];
    if (!hasSaid(exercise)) return places;
    return places.filter((place) => {
      const other = exercise.forms[place];
      const own = window.yours.formOf(other.exercise);
      return own && own.exercise === other.exercise && (own.variation ?? null) === other.variation;
    });
  }

  /** The parts of a form as steps of the clock, each with what is said when it begins. */
  function stepsOf(form, most) {
    const { parts, lines } = most ? form.most : form;
    const sets = 1 + parts.filter(([kind]) => kind === "rest").length;
    const sided = parts.some(([kind]) => kind === "change");
    const steps = [];
    let [set, side] = [1, 0];
    parts.forEach(([kind, ...rest], part) => {
      if (kind === "rest") [set, side] = [set + 1, 0];
      if (kind === "change") side = 1;
      const own = { part, line: lines[part], set, sets, side: sided ? side : null, works: kind === "time" || kind === "reps" };
      if (kind !== "reps") {
        steps.push({ ...own, phase: kind, length: rest[0] });
        return;
      }
      const [count, work, hold, pause, alternating] = rest;
      const each = work / count;
      for (let rep = 1; rep <= count; rep += 1) {
        const one = { ...own, rep, count, side: alternating ? (rep - 1) % 2 : own.side };
        const way = (each - hold) / 2;
        if (hold >= each) steps.push({ ...one, phase: "hold", length: each, whole: true });
        else if (hold > 0) {
          steps.push({ ...one, phase: "out", length: way, scaled: true });
          steps.push({ ...one, phase: "hold", length: hold, hasty: way < SHORT });
          steps.push({ ...one, phase: "back", length: way, scaled: true });
        } else steps.push({ ...one, phase: "go", length: each, scaled: true });
        if (pause > 0 && rep < count) steps.push({ ...one, phase: "pause", length: pause });
      }
    });
    return steps;
  }

  /** What is said when a step begins; nothing where there is no time for it. */
  function saidAt(step) {
    switch (step.phase) {
      case "ready":
        return fill(words.ready, { title: state.form.title, part: step.line });
      case "rest":
        return `${step.line}. ${fill(words.next_set, { n: step.set, m: step.sets })}`;
      case "change":
      case "time":
        return step.line;
      case "pause":
        return step.length >= LONG_HOLD / 2 ? words.do_rest : null;
      case "out":
        return step.length < SHORT ? fill(words.hold_number, { n: step.rep }) : String(step.rep);
      case "go":
        return String(step.rep);
      case "hold":
        if (step.whole) return step.count === 1 ? step.line : fill(words.hold_number, { n: step.rep });
        return step.hasty ? null : words.hold;
      default:
        return step.length < SHORT ? null : words.back;
    }
  }

  /** True for what ends with "3, 2, 1": she waits for the end of it. */
  function isCountedDown(step) {
    if (step.phase === "hold") return step.length >= LONG_HOLD;
    return !["go", "out", "back"].includes(step.phase) && step.length > (LAST[0] + 1) * 1000;
  }

  // Voice and tones.

  const language = document.documentElement.lang;
  const speech = "speechSynthesis" in window ? window.speechSynthesis : null;
  let voice = null;
  let audio = null;

  /** The voice for the language of the page. One that a distant service speaks would tell it what she does. */
  function findVoice() {
    const tag = (own) => own.lang.replace("_", "-").toLowerCase();
    const [whole, base] = [language.toLowerCase(), language.toLowerCase().split("-")[0]];
    const own = (speech?.getVoices() ?? []).filter((one) => one.localService && tag(one).split("-")[0] === base);
    voice = own.find((one) => tag(one) === whole && one.default) ?? own.find((one) => one.default)
      ?? own.find((one) => tag(one) === whole) ?? own[0] ?? null;
  }
  findVoice();
  speech?.addEventListener?.("voiceschanged", () => {
    findVoice();
    note();
  });

  /** A short tone for a number, two for a word, a low one for the last seconds. */
  const TONES = { number: [660], word: [520, 780], last: [440] };
  function tone(kind) {
    if (audio?.state !== "running") return;
    TONES[kind].forEach((pitch, index) => {
      const begin = audio.currentTime + index * 0.18;
      const [pipe, gain] = [audio.createOscillator(), audio.createGain()];
      pipe.frequency.value = pitch;
      gain.gain.setValueAtTime(0.0001, begin);
      gain.gain.exponentialRampToValueAtTime(0.3, begin + 0.02);
      gain.gain.exponentialRampToValueAtTime(0.0001, begin + 0.16);
      pipe.connect(gain).connect(audio.destination);
      pipe.start(begin);
      pipe.stop(begin + 0.17);
    });
  }

  function say(text, kind) {
    if (!settings.sound || text === null) return;
    if (!settings.voice || voice === null) return tone(kind);
    // A number that comes late is a wrong number.
    if (speech.speaking || speech.pending) speech.cancel();
    const words = new SpeechSynthesisUtterance(text);
    words.lang = voice.lang;
    words.voice = voice;
    speech.speak(words);
  }
  const hush = () => speech?.cancel();

  /** Browsers let a page sound only after she has pressed something on it. */
  function tune() {
    try {
      audio ??= new AudioContext();
      if (audio.state === "suspended") audio.resume()?.then?.(note, () => {});
    } catch {
      audio = null;
    }
  }

  // The screen stays awake while it counts.

  let lock = null;
  let refused = false;
  async function wake() {
    try {
      lock = await navigator.wakeLock.request("screen");
      refused = false;
      // The device may take it back, as when it saves its battery.
      lock.addEventListener("release", () => {
        refused = state.running;
        note();
      });
      if (!state.running) rest();
    } catch {
      refused = true;
    }
    note();
  }
  function rest() {
    lock?.release?.().catch(() => {});
    lock = null;
  }

  // The drawn figure, by the same clock as the count.

  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  const QUICK = 0.2;
  let figure = null;

  /** Takes the figure of a form in hand: its movement stands still at any place from 0, its start, to 1, its finish. */
  function hold(form) {
    release();
    const picture = form.article.querySelector(".can-move");
    if (picture === null || calm.matches) return;
    const drawing = picture.querySelector(".poses > svg:last-of-type");
    const still = [...drawing.querySelectorAll("animate")];
    if (still.length === 0) return;
    const paces = drawing.querySelector("[data-paces]").dataset.paces.split(" ");
    const weights = paces.map((pace) => (pace === "quick" ? QUICK : 1));
    const all = weights.reduce((sum, weight) => sum + weight, 0);
    const moving = still.map((animation) => animation.cloneNode());
    const ends = [];
    for (const animation of moving) {
      const moments = animation.getAttribute("values").split(";");
      const steps = (moments.length - 1) / paces.length;
      ends.push(moments[0] === moments[moments.length - 1]);
      const times = moments.map((_, index) => {
        const leg = Math.min(Math.floor(index / steps), paces.length - 1);
        const before = weights.slice(0, leg).reduce((sum, weight) => sum + weight, 0);
        // It sets off gently, and arrives so.
        const along = Math.acos(1 - (2 * (index - leg * steps)) / steps) / Math.PI;
        return ((before + along * weights[leg]) / all).toFixed(4);
      });
      for (const [name, value] of [["begin", "0s"], ["dur", "1s"], ["fill", "freeze"], ["calcMode", "linear"]]) {
        animation.setAttribute(name, value);
      }
      animation.setAttribute("keyTimes", times.join(";"));
    }
    still.forEach((animation, index) => animation.replaceWith(moving[index]));
    drawing.pauseAnimations();
    figure = { picture, drawing, still, moving, returns: ends.every(Boolean) };
  }
  function release() {
    if (figure === null) return;
    figure.picture.classList.remove("moving");
    figure.moving.forEach((animation, index) => animation.replaceWith(figure.still[index]));
    figure.drawing.unpauseAnimations();
    figure = null;
  }

  /** Where the movement is in a step: 0 at its start, 1 at its finish. */
  function place(step, into) {
    const along = into / step.length;
    const returns = figure.returns;
    const round = (share) => (returns ? share : 1 - Math.abs(2 * share - 1));
    const [start, turn] = [0, returns ? 0.5 : 1];
    switch (step.phase) {
      case "go":
        return round(along);
      case "time":
        return round((into % STROLL) / STROLL);
      case "out":
        return turn * along;
      case "back":
        return returns ? 0.5 + along / 2 : 1 - along;
      case "hold": {
        if (!step.whole) return turn;
        const way = Math.min(1000, step.length / 4);
        if (into < way) return (turn * into) / way;
        const left = step.length - into;
        if (left >= way) return turn;
        return returns ? 1 - left / way / 2 : left / way;
      }
      default:
        return start;
    }
  }
  function move() {
    if (figure === null) return;
    const step = state.steps[state.step];
    const works = step?.works === true && state.view === "stage" && !state.between;
    figure.picture.classList.toggle("moving", works);
    if (works) figure.drawing.setCurrentTime(place(step, state.into));
  }
  function draw() {
    move();
    if (state.running && figure !== null) clock.frame(draw);
  }

  // What goes on.

  const state = {
    view: "before",
    /** Which exercise, and in which form. */
    exercise: null,
    form: null,
    most: false,
    steps: [],
    step: 0,
    /** How far into the step, in milliseconds of the plan. */
    into: 0,
    running: false,
    /** Done with the exercise, before the next. */
    between: false,
    /** The parts that were counted to their end. */
    played: new Set(),
    /** Sets done, by exercise and form. */
    done: new Map(),
    why: "",
  };
  let timer = null;
  let last = 0;
  let announced = -Infinity;

  function announce(text) {
    const now = clock.now();
    if (now - announced < QUIET) return;
    announced = now;
    at("status").textContent = text;
  }

  function view(name) {
    state.view = name;
    root.dataset.view = name;
    at("before").hidden = name !== "before";
    at("stage").hidden = name !== "stage";
    at("done").hidden = name !== "done";
    at("foot").hidden = name !== "stage";
    at("signs").hidden = name === "stage";
    at("stopped").hidden = name !== "stopped";
    at("after").hidden = name !== "stopped";
    document.body.classList.toggle("practicing", name === "stage" || name === "stopped");
  }

  const rateOf = (step) => (step.scaled ? SPEEDS[settings.speed] : 1);

  /** Lets time pass, and tells each step that begins in it. */
  function advance(passed) {
    let left = passed;
    while (left > 0 && state.running) {
      const step = state.steps[state.step];
      const rate = rateOf(step);
      const needed = (step.length - state.into) / rate;
      const used = Math.min(left, needed);
      const before = (step.length - state.into) / 1000;
      left -= used;
      state.into = used < needed ? state.into + used * rate : step.length;
      const after = (step.length - state.into) / 1000;
      if (isCountedDown(step)) {
        const second = LAST.find((number) => before > number && after <= number && after > number - 1);
        if (second !== undefined) say(String(second), "last");
      }
      if (used >= needed) next();
    }
  }

  /** The step is over. */
  function next() {
    const [step, following] = [state.steps[state.step], state.steps[state.step + 1]];
    if (step.works && step.part !== following?.part) state.played.add(step.part);
    if (following === undefined) return finish();
    enter(state.step + 1);
  }

  function enter(index) {
    const before = state.steps[state.step];
    state.step = index;
    state.into = 0;
    const step = state.steps[index];
    if (!state.running) return;
    tell(step);
    if (before.part !== step.part) inform(step);
  }
  const tell = (step) => say(saidAt(step), step.rep === undefined ? "word" : "number");
  const inform = (step) => announce([step.line, setOf(step)].filter(Boolean).join(". "));

  function run() {
    if (state.running) return;
    state.running = true;
    state.why = "";
    last = clock.now();
    tune();
    wake();
    const step = state.steps[state.step];
    if (state.into === 0) tell(step);
    inform(step);
    timer = clock.soon(pass);
    show();
    draw();
  }
  function pass() {
    const now = clock.now();
    advance(Math.min(now - last, LONGEST_STEP));
    last = now;
    show();
    if (state.running) timer = clock.soon(pass);
  }
  function pause(why = "") {
    if (!state.running) return;
    // What has passed since the clock was last asked counts too.
    advance(Math.min(clock.now() - last, LONGEST_STEP));
    if (!state.running) return show();
    halt();
    state.why = why;
    announce(words.paused);
    show();
  }
  function halt() {
    state.running = false;
    clock.never(timer);
    hush();
    rest();
  }

  /** Puts the form on the stage, before its first step. */
  function stage(exercise, form, most = false) {
    leave();
    Object.assign(state, { exercise, form, most, steps: stepsOf(form, most), step: 0, into: 0, between: false });
    at("where").after(form.article);
    form.article.querySelector(".form-main").append(at("count"));
    at("easier").hidden = true;
    hold(form);
  }

  /** Takes the form off the stage, and notes what was done of it. */
  function leave() {
    commit();
    release();
    at("stage").append(at("count"));
    state.form?.home.insertBefore(state.form.article, state.form.before);
  }
  function commit() {
    const { form, exercise, steps, played } = state;
    if (form === null) return;
    const works = new Map();
    for (const step of steps.filter((one) => one.works)) {
      const whole = (works.get(step.set) ?? true) && played.has(step.part);
      works.set(step.set, whole);
    }
    const sets = [...works.values()].filter(Boolean).length;
    const known = state.done.get(form) ?? { exercise, sets: 0 };
    state.done.set(form, { exercise, sets: known.sets + sets });
    played.clear();
  }

  const open = () => exercises.filter((exercise) => hers(exercise) >= 0);
  const following = () => {
    const list = open();
    const now = exercises.indexOf(state.exercise);
    return list.find((exercise) => exercises.indexOf(exercise) > now) ?? null;
  };

  function begin(exercise) {
    view("stage");
    stage(exercise, exercise.forms[hers(exercise)]);
    show();
    at("where").focus();
    run();
  }

  function finish() {
    halt();
    state.between = true;
    const then = following();
    say(then === null ? words.done_last : words.done, "word");
    announced = -Infinity;
    announce([fill(words.finished, { title: state.form.title }), thenLine(then)].join(". "));
    show();
    at("onward").focus();
  }
  const thenLine = (then) => (then === null ? words.last : fill(words.then, { title: then.forms[hers(then)].title }));

  // What is seen.

  const sideOf = (step) => (step.side === null || step.side === undefined ? "" : step.side === 0 ? words.side_one : words.side_other);
  function setOf(step) {
    const set = step.sets > 1 ? fill(words.set, { n: step.set, m: step.sets }) : "";
    return [set, step.works ? sideOf(step) : ""].filter(Boolean).join(", ");
  }

  /** The large number with what it counts. */
  function numberOf(step, into) {
    const seconds = Math.ceil((step.length - into) / 1000);
    const counts = step.rep !== undefined && step.phase !== "pause" && !(step.whole && (step.count === 1 || step.length >= LONG_HOLD));
    if (counts) return [String(step.rep), fill(words.of_reps, { n: step.count })];
    if (seconds <= 120) return [String(seconds), words.seconds];
    return [`${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`, ""];
  }

  function doingOf(step, into) {
    const names = { out: "go", pause: "rest" };
    const doing = words[`do_${names[step.phase] ?? step.phase}`];
    if (step.phase !== "hold" || step.length < LONG_HOLD / 2) return doing;
    const [number] = numberOf(step, into);
    const seconds = String(Math.ceil((step.length - into) / 1000));
    return number === seconds ? doing : `${doing}: ${seconds}`;
  }

  /** The share of the part that is over. */
  function shareOf() {
    const step = state.steps[state.step];
    const own = state.steps.filter((one) => one.part === step.part);
    const over = own.filter((one) => state.steps.indexOf(one) < state.step).reduce((sum, one) => sum + one.length, 0);
    return (over + state.into) / own.reduce((sum, one) => sum + one.length, 0);
  }

  function show() {
    if (state.view !== "stage") return;
    const { form, exercise, between, running } = state;
    const step = state.steps[state.step];
    const list = open();
    const number = { n: list.indexOf(exercise) + 1, m: list.length };
    put(at("where"), list.length > 1 ? fill(words.exercise, number) : words.exercise_alone);
    root.classList.toggle("between", between);
    root.classList.toggle("ready", !between && step.phase === "ready");
    at("playing").hidden = between || !at("easier").hidden;
    at("between").hidden = !between;
    if (between) {
      const then = following();
      put(at("now"), fill(words.finished, { title: form.title }));
      put(at("next"), thenLine(then));
      put(at("onward"), then === null ? at("onward").dataset.last : at("onward").dataset.next);
      for (const name of ["number", "unit", "set"]) put(at(name), "");
      at("bar").style.width = "100%";
    } else {
      const [figures, unit] = numberOf(step, state.into);
      put(at("number"), figures);
      put(at("unit"), unit);
      put(at("now"), running ? doingOf(step, state.into) : words.paused);
      put(at("set"), setOf(step));
      const after = state.steps.find((one) => one.part > step.part);
      put(at("next"), after === undefined ? words.next_end : fill(words.next, { what: after.line }));
      at("bar").style.width = `${(shareOf() * 100).toFixed(1)}%`;
      put(at("pause"), running ? words.pause : words.go_on);
      put(at("skip"), step.phase === "ready" ? words.am_ready : words.skip);
      at("ease").hidden = easierOf(exercise, form).length === 0 && form.hints.length === 0;
      at("most").hidden = step.phase !== "ready" || form.most === undefined;
      put(at("most"), state.most ? words.count_fewest : words.count_most);
    }
    put(at("speed"), words[`speed_${settings.speed + 1}`]);
    at("slower").disabled = settings.speed === 0;
    at("faster").disabled = settings.speed === SPEEDS.length - 1;
    note();
    if (!running) move();
  }

  /** What she should know of her device, said quietly. */
  function note() {
    const silent = settings.sound && (!settings.voice || voice === null) && audio === null && state.view === "stage";
    const lines = [
      state.running ? "" : state.why,
      settings.sound && settings.voice && voice === null ? words.no_voice : "",
      silent ? words.no_sound : "",
      refused && state.running ? words.no_lock : "",
    ];
    put(at("note"), lines.filter(Boolean).join(" "));
  }

  /** The list on the first view: which form is hers. */
  function list() {
    for (const exercise of exercises) {
      const own = hers(exercise);
      const line = exercise.line.querySelector(".hers");
      const text = own < 0 ? words.not_for_you : fill(words.for_you, { title: exercise.forms[own].title });
      line.hidden = own === 0;
      put(line, own === 0 ? "" : text);
    }
    const none = open().length === 0;
    at("start").disabled = none;
    at("go").querySelector("p").textContent = none ? words.none_for_you : startAbout;
  }
  const startAbout = at("go").querySelector("p").textContent;

  // What she presses.

  at("start").addEventListener("click", () => {
    tune();
    begin(open()[0]);
  });
  at("pause").addEventListener("click", () => (state.running ? pause() : run()));
  at("skip").addEventListener("click", () => {
    const step = state.steps[state.step];
    // From "I am ready" it is three seconds.
    if (step.phase === "ready" && step.length - state.into > LAST[0] * 1000) {
      state.into = step.length - LAST[0] * 1000 - 1;
      hush();
      if (!state.running) run();
      return show();
    }
    const after = state.steps.findIndex((one) => one.part > step.part);
    if (after < 0) return finish();
    enter(after);
    show();
  });
  at("back").addEventListener("click", () => {
    const step = state.steps[state.step];
    const first = state.steps.findIndex((one) => one.part === step.part);
    const fresh = state.step === first && state.into < 2000;
    const part = fresh ? Math.max(step.part - 1, 0) : step.part;
    for (const played of [...state.played]) if (played >= part) state.played.delete(played);
    enter(state.steps.findIndex((one) => one.part === part));
    show();
  });
  at("most").addEventListener("click", () => {
    const { exercise, form, most, into } = state;
    state.most = !most;
    state.steps = stepsOf(form, state.most);
    state.into = Math.min(into, state.steps[0].length);
    state.exercise = exercise;
    show();
  });

  at("ease").addEventListener("click", () => {
    pause();
    const { exercise, form } = state;
    const choices = at("easier").querySelector("div");
    choices.replaceChildren();
    for (const hint of form.hints) {
      const line = document.createElement("p");
      line.textContent = hint;
      choices.append(line);
    }
    for (const place of easierOf(exercise, form)) {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "button main";
      button.textContent = fill(words.instead, { title: exercise.forms[place].title });
      button.addEventListener("click", () => {
        stage(exercise, exercise.forms[place]);
        show();
        at("where").focus();
        run();
      });
      choices.append(button);
    }
    at("easier").hidden = false;
    show();
    at("easier").querySelector("h3").focus();
  });
  at("keep").addEventListener("click", () => {
    at("easier").hidden = true;
    run();
    show();
    at("pause").focus();
  });

  at("onward").addEventListener("click", () => {
    const then = following();
    if (then === null) done();
    else begin(then);
  });
  at("again").addEventListener("click", () => {
    const { exercise, form, most } = state;
    stage(exercise, form, most);
    show();
    at("where").focus();
    run();
  });

  function stop() {
    if (state.view !== "stage") return;
    halt();
    announced = -Infinity;
    view("stopped");
    scrollTo(0, 0);
    at("stopped").querySelector("h2").focus();
  }
  at("stop").addEventListener("click", stop);
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape") stop();
  });
  at("go-on").addEventListener("click", () => {
    view("stage");
    show();
    (state.between ? at("onward") : at("pause")).focus();
  });
  at("end").addEventListener("click", done);

  for (const [name, by] of [["slower", -1], ["faster", 1]]) {
    at(name).addEventListener("click", () => {
      settings.speed = Math.min(Math.max(settings.speed + by, 0), SPEEDS.length - 1);
      keep();
      show();
    });
  }
  for (const name of ["sound", "voice"]) {
    at(name).checked = settings[name];
    at(name).addEventListener("change", () => {
      settings[name] = at(name).checked;
      if (!settings[name]) hush();
      keep();
      note();
    });
  }

  document.addEventListener("visibilitychange", () => {
    if (document.hidden) pause(words.hidden);
  });
  addEventListener("pagehide", hush);
  calm.addEventListener("change", () => {
    if (state.form === null) return;
    hold(state.form);
    draw();
  });
  document.addEventListener("yours", () => {
    list();
    if (state.view === "before" || state.view === "done" || state.form === null) return;
    const own = hers(state.exercise);
    if (own >= 0 && (!hasSaid(state.exercise) || state.exercise.forms[own] === state.form)) return;
    // What she does now is no longer hers.
    halt();
    if (own < 0) {
      leave();
      state.form = null;
      view("before");
      return;
    }
    stage(state.exercise, state.exercise.forms[own]);
    show();
  });

  // At the end.

  function done() {
    if (state.running) halt();
    leave();
    state.form = null;
    view("done");
    const rows = at("did").querySelector("div");
    rows.replaceChildren();
    const made = [...state.done].filter(([, { sets }]) => sets > 0);
    const missed = open().filter((exercise) => !made.some(([, one]) => one.exercise === exercise));
    const all = [
      ...made.map(([form, { sets }]) => ({ form, sets })),
      ...missed.map((exercise) => ({ form: exercise.forms[hers(exercise)], sets: 0 })),
    ];
    for (const { form, sets } of all) {
      const [label, box] = [document.createElement("label"), document.createElement("input")];
      box.type = "checkbox";
      box.checked = sets > 0;
      box.entry = { form, sets: Math.max(sets, 1) };
      const count = sets === 0 ? words.not_done : fill(sets === 1 ? words.sets_one : words.sets_many, { n: sets });
      label.append(box, ` ${form.title}: ${count}`);
      rows.append(label);
    }
    const keeps = typeof window.days?.add === "function";
    at("keeping").hidden = !keeps;
    at("not-kept").hidden = keeps;
    scrollTo(0, 0);
    at("done").querySelector("h2").focus();
  }

  at("log").addEventListener("change", () => {
    at("trouble").hidden = new FormData(at("log")).get("trouble") === "";
  });
  at("log").addEventListener("submit", async (event) => {
    event.preventDefault();
    if (typeof window.days?.add !== "function") return;
    const told = new FormData(at("log"));
    const boxes = [...at("did").querySelectorAll("input")].filter((box) => box.checked && !box.disabled);
    if (boxes.length === 0) return put(at("kept"), words.nothing);
    const shared = {
      series: data.of.series,
      week: data.of.week,
      on: clock.today(),
      effort: told.get("effort") === "" ? null : Number(told.get("effort")),
      felt: told.get("felt").trim() || null,
      trouble: told.get("trouble") || null,
      how: "practice",
    };
    const button = at("keeping").querySelector("button");
    button.disabled = true;
    try {
      for (const box of boxes) {
        const { form, sets } = box.entry;
        const named = { exercise: form.exercise, title: form.name ?? form.title, form: form.variation === null ? null : form.title };
        await window.days.add({ ...named, ...shared, sets });
        // What is written down once is not written twice.
        box.disabled = true;
      }
      put(at("kept"), words.kept);
    } catch {
      button.disabled = false;
      put(at("kept"), words.not_kept);
    }
  });

  root.classList.add("scripted");
  at("go").hidden = false;
  at("plain").hidden = true;
  view("before");
  list();
})();
