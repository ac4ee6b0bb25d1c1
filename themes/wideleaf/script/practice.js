// Plays exercises: one at a time, by the parts that the page carries. It starts when she presses Start, waits for her
// between two exercises, and pauses when nobody looks. Without this script the page lists the same parts with their
// seconds.

(() => {
  const { steps: count, voice, figure, log } = window.practice;
  const data = JSON.parse(document.getElementById("practice.data").textContent);
  const { words } = data;
  const { fill } = count;
  const root = document.getElementById("practice");
  const at = (name) => document.getElementById(`practice.${name}`);
  const put = (name, text) => {
    if (at(name).textContent !== text) at(name).textContent = text;
  };

  /** All time comes from here. */
  const clock = {
    now: () => performance.now(),
    after: (length, work) => setTimeout(work, length),
    never: (timer) => clearTimeout(timer),
    frame: (work) => requestAnimationFrame(work),
    /** The reader's own day: `2027-02-15`. */
    today() {
      const day = new Date();
      const parts = [day.getFullYear(), day.getMonth() + 1, day.getDate()];
      return parts.map((part) => String(part).padStart(2, "0")).join("-");
    },
  };
  /** The screen shows at least so often how far it is. In milliseconds, as all that follows. */
  const TICK = 250;
  /** Time that passed unseen, while the device slept, is not counted. */
  const LONGEST_STEP = 1000;
  /** No announcement follows another sooner. */
  const QUIET = 3000;
  /** Back leads to the part before while this one has hardly begun. */
  const FRESH = 2000;
  /** How fast repetitions go; seconds of holds and rests stay seconds. */
  const SPEEDS = [0.6, 0.8, 1, 1.2];
  const AS_PLANNED = 2;

  // What she chose on this device.
  const settings = { speed: AS_PLANNED, sound: true, voice: true };
  try {
    const kept = JSON.parse(localStorage.getItem("practice") ?? "{}");
    if (Number.isInteger(kept.speed) && kept.speed in SPEEDS) settings.speed = kept.speed;
    for (const name of ["sound", "voice"]) if (typeof kept[name] === "boolean") settings[name] = kept[name];
  } catch {
    // A device that keeps nothing, or what somebody else has written there.
  }
  function choose(name, value) {
    settings[name] = value;
    try {
      localStorage.setItem("practice", JSON.stringify(settings));
    } catch {
      // It holds for this visit.
    }
  }

  // The exercises with their forms, as the page has them.
  const texts = (article, selector) => [...article.querySelectorAll(selector)].map((one) => one.textContent);
  const exercises = data.exercises.map((exercise, index) => {
    const articles = at("plain").querySelectorAll(".practice-asked")[index].querySelectorAll(".practice-form");
    const forms = exercise.forms.map((form, place) => {
      const article = articles[place];
      const lines = texts(article, ".form-parts li");
      const [title] = texts(article, "h3");
      const home = { parent: article.parentNode, before: article.nextSibling };
      return { ...form, article, lines, title, hints: texts(article, ".form-hints p"), home };
    });
    const line = at("list").children[index];
    return { id: exercise.id, forms, line, days: exercise.days, box: line.querySelector("[type=checkbox]") };
  });

  /** On a page of one person: checks what her plan has for today; what else she does, she checks herself. */
  let planned = "";
  function plan() {
    if (planned === clock.today()) return;
    planned = clock.today();
    const weekday = new Date(`${planned}T00:00:00Z`).getUTCDay() || 7;
    for (const { line, box, days } of exercises) {
      if (box === null) continue;
      box.checked = days.includes(weekday);
      box.parentElement.hidden = false;
      line.querySelector(".not-today").hidden = box.checked;
    }
  }
  const isWanted = ({ box }) => box === null || box.checked;

  /** The form that is hers, as far as she has said what is true for her; `undefined` where none is. */
  function found({ id, forms }) {
    const own = window.yours?.formOf?.(id);
    // What she has said, and the page does not know, is no leave.
    if (own === undefined) return hasSaid() ? undefined : forms[0];
    return forms.find((form) => is(form, own));
  }
  /** The same, but for a form whose dose is another for her. */
  function hers(exercise) {
    const own = found(exercise);
    return own && hasSaid() && own.other_doses?.some((id) => window.yours.has?.(id) !== false) ? undefined : own;
  }
  const is = (form, own) => own !== null && form.exercise === own.exercise && form.variation === (own.variation ?? null);
  const hasSaid = () => window.yours?.said?.() ?? exercises.some(({ id }) => window.yours?.formOf?.(id) !== undefined);
  const open = () => exercises.filter((exercise) => isWanted(exercise) && hers(exercise));

  /** The easier forms that she may take: where she has said what is true for her, only those that are hers. */
  function easierOf(exercise, form) {
    const forms = (form.easier ?? []).map((place) => exercise.forms[place]);
    if (!hasSaid()) return forms;
    return forms.filter((easier) => is(easier, window.yours.formOf(easier.exercise) ?? null) && !easier.other_doses);
  }

  const state = {
    view: "before",
    exercise: null,
    form: null,
    /** All that the dose allows is counted, rather than the fewest. */
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
    /** Sets done of each form. */
    done: new Map(),
    /** Why it pauses, where she did not ask for it. */
    why: "",
  };
  let timer = null;
  let last = 0;
  let announced = -Infinity;
  const stepNow = () => state.steps[state.step];

  const say = (text, kind) => voice.say(text, kind, settings);
  const tell = (step) => {
    const kind = step.rep === undefined ? "word" : "number";
    say(count.saidAt(step, state.form.title, words), kind);
  };

  /** Tells a screen reader what begins: a part, never a second. */
  function announce(text, now = clock.now()) {
    if (now - announced < QUIET) return;
    announced = now;
    put("status", text);
  }
  const inform = (step) => announce([step.line, count.setOf(step, words)].filter(Boolean).join(". "));

  const toTop = () => scrollTo({ top: 0, behavior: "instant" });

  // Time passes.

  function advance(passed) {
    let left = passed;
    while (left > 0 && state.running) {
      const step = stepNow();
      const speed = speedOf(step);
      const needed = (step.length - state.into) / speed;
      const to = left < needed ? state.into + left * speed : step.length;
      const second = count.secondIn(step, state.into, to);
      if (second !== undefined) say(String(second), "last");
      left -= Math.min(left, needed);
      state.into = to;
      if (to === step.length) next(step);
    }
  }
  function next(step) {
    const following = state.steps[state.step + 1];
    if (step.works && step.part !== following?.part) state.played.add(step.part);
    if (following === undefined) finish();
    else enter(state.step + 1);
  }
  function enter(index) {
    const before = stepNow();
    Object.assign(state, { step: index, into: 0 });
    if (!state.running) return;
    tell(stepNow());
    if (before.part !== stepNow().part) inform(stepNow());
    // She may have read on below while she got ready.
    if (before.phase === "ready") toTop();
    wait();
  }
  function catchUp() {
    const now = clock.now();
    advance(Math.min(now - last, LONGEST_STEP));
    last = now;
  }
  function pass() {
    catchUp();
    show();
    if (state.running) wait();
  }
  /** Until something is said or shown anew: the step ends, or another second of it begins. */
  function wait() {
    const step = stepNow();
    const speed = speedOf(step);
    const left = step.length - state.into;
    const second = left % 1000 || 1000;
    clock.never(timer);
    timer = clock.after(Math.max(1, Math.min(TICK, left / speed, second / speed)), pass);
  }
  function run() {
    if (state.running) return;
    Object.assign(state, { running: true, why: "" });
    last = clock.now();
    voice.tune();
    voice.wake(note);
    if (state.into === 0) tell(stepNow());
    inform(stepNow());
    wait();
    show();
    draw();
  }
  function halt() {
    state.running = false;
    clock.never(timer);
    voice.hush();
    voice.rest();
  }
  function pause(why = "") {
    if (!state.running) return;
    catchUp();
    if (state.running) {
      halt();
      state.why = why;
      announce(words.paused);
    }
    show();
  }
  const speedOf = (step) => (step.scaled ? SPEEDS[settings.speed] : 1);
  /** Shows the figure as it is now, which may be between two looks at the clock. */
  function place() {
    const step = stepNow();
    const since = state.running ? Math.min(clock.now() - last, LONGEST_STEP) * speedOf(step) : 0;
    figure.show(state.between ? null : step, Math.min(state.into + since, step.length));
  }
  function draw() {
    place();
    if (state.running && figure.moves()) clock.frame(draw);
  }

  // One exercise after the other.

  function view(name) {
    state.view = name;
    root.dataset.view = name;
    for (const [section, views] of Object.entries(SEEN)) at(section).hidden = !views.includes(name);
    document.body.classList.toggle("practicing", name === "stage" || name === "stopped");
  }
  const SEEN = {
    before: ["before"],
    stage: ["stage"],
    done: ["done"],
    signs: ["before", "stopped", "done"],
    stopped: ["stopped"],
    after: ["stopped"],
    // Where it is not read as well, it is there for those without scripts.
    plain: at("plain").hasAttribute("data-read") ? ["before"] : [],
  };

  /** Puts a form on the stage, before its first step. */
  function stage(exercise, form, most = false) {
    leave();
    const { parts, lines } = most ? form.most : form;
    Object.assign(state, { exercise, form, most, steps: count.of(parts, lines), step: 0, into: 0, between: false });
    at("where").after(form.article);
    form.article.querySelector(".form-scene").append(at("told"));
    form.article.querySelector(".form-main").append(at("count"));
    at("easier").hidden = true;
    figure.hold(form.article);
    show();
  }
  /** Takes the form off the stage, and notes what was done of it. */
  function leave() {
    const { form, exercise, steps, played } = state;
    if (form === null) return;
    const works = steps.filter((step) => step.works);
    const sets = new Set(works.map((step) => step.set));
    for (const step of works) if (!played.has(step.part)) sets.delete(step.set);
    state.done.set(form, { exercise, sets: (state.done.get(form)?.sets ?? 0) + sets.size });
    played.clear();
    figure.release();
    at("stage").append(at("told"), at("count"));
    form.home.parent.insertBefore(form.article, form.home.before);
    state.form = null;
  }
  function begin(exercise, form = hers(exercise), most = false) {
    view("stage");
    stage(exercise, form, most);
    at("where").focus({ preventScroll: true });
    toTop();
    run();
  }
  function finish() {
    halt();
    state.between = true;
    say(following() === undefined ? words.done_last : words.done, "word");
    announced = -Infinity;
    announce([finished(), thereafter()].join(". "));
    show();
    at("onward").focus();
  }
  const following = () => open().find((exercise) => exercises.indexOf(exercise) > exercises.indexOf(state.exercise));
  const finished = () => fill(words.finished, { title: state.form.title });
  const thereafter = () => {
    const then = following();
    return then === undefined ? words.last : fill(words.then, { title: hers(then).title });
  };
  function stop() {
    if (state.view !== "stage") return;
    if (state.running) {
      catchUp();
      halt();
    }
    view("stopped");
    toTop();
    at("stopped").querySelector("h2").focus();
  }
  function end() {
    if (state.running) halt();
    leave();
    const done = [...state.done].filter(([, { sets }]) => sets > 0);
    const missed = open().filter((exercise) => !done.some(([, one]) => one.exercise === exercise));
    const rows = done.map(([form, { sets }]) => ({ form, sets }));
    log.show([...rows, ...missed.map((exercise) => ({ form: hers(exercise), sets: 0 }))]);
    view("done");
    toTop();
    at("done").querySelector("h2").focus();
  }

  // What is seen.

  function show() {
    if (state.view !== "stage" || state.form === null) return;
    const { exercise, between } = state;
    const list = open();
    const order = { n: list.indexOf(exercise) + 1, m: list.length };
    put("where", list.length > 1 ? fill(words.exercise, order) : words.exercise_alone);
    root.classList.toggle("between", between);
    root.classList.toggle("ready", !between && stepNow().phase === "ready");
    at("playing").hidden = between || !at("easier").hidden;
    at("pause").hidden = at("playing").hidden;
    at("between").hidden = !between;
    if (between) showBetween();
    else showStep(stepNow());
    put("speed", words[`speed_${settings.speed + 1}`]);
    at("slower").disabled = settings.speed === 0;
    at("faster").disabled = settings.speed === SPEEDS.length - 1;
    note();
    if (!state.running || !figure.moves()) place();
  }
  function showBetween() {
    put("now", finished());
    put("next", thereafter());
    put("onward", at("onward").dataset[following() === undefined ? "last" : "next"]);
    for (const name of ["number", "unit", "set"]) put(name, "");
    at("bar").style.width = "100%";
  }
  function showStep(step) {
    const { form, exercise, running, steps, into } = state;
    const [number, unit] = count.numberOf(step, into, words);
    put("number", number);
    at("number").classList.toggle("long", number.length > 2);
    put("unit", unit);
    put("now", running ? count.doingOf(step, into, words) : words.paused);
    put("set", count.setOf(step, words));
    const after = steps.find((one) => one.part > step.part);
    put("next", after === undefined ? words.next_end : fill(words.next, { what: after.line }));
    const lengths = (list) => list.filter((one) => one.part === step.part).reduce((sum, { length }) => sum + length, 0);
    const share = (lengths(steps.slice(0, state.step)) + into) / lengths(steps);
    at("bar").style.width = `${(share * 100).toFixed(1)}%`;
    put("pause", running ? words.pause : words.go_on);
    put("skip", step.phase === "ready" ? words.am_ready : words.skip);
    at("ease").hidden = easierOf(exercise, form).length === 0 && form.hints.length === 0;
    at("most").hidden = step.phase !== "ready" || form.most === undefined;
    put("most", state.most ? words.count_fewest : words.count_most);
  }
  /** What she should know of her device, said quietly. */
  function note() {
    const { sound, voice: speaks } = settings;
    const toned = sound && !(speaks && voice.speaks());
    const lines = [
      state.running ? "" : state.why,
      toned && speaks ? words.no_voice : "",
      toned && state.running && !voice.sounds() ? words.no_sound : "",
      state.running && voice.dims() ? words.no_lock : "",
    ];
    put("note", lines.filter(Boolean).join(" "));
  }
  /** The list before it begins: which form is hers. */
  function showList() {
    for (const exercise of exercises) {
      const own = hers(exercise);
      const line = exercise.line.querySelector(".hers");
      line.hidden = own === exercise.forms[0];
      const not = found(exercise) ? words.other_dose : words.not_for_you;
      if (!line.hidden) line.textContent = own ? fill(words.for_you, { title: own.title }) : not;
    }
    const none = open().length === 0;
    at("start").disabled = none;
    at("go").querySelector("p").textContent = none ? at("go").querySelector("p").dataset.none ?? words.none_for_you : about;
  }
  const about = at("go").querySelector("p").textContent;

  // What she presses.

  const onClick = (name, work) => at(name).addEventListener("click", work);
  onClick("start", () => begin(open()[0]));
  onClick("pause", () => (state.running ? pause() : run()));
  onClick("skip", () => {
    if (state.running) catchUp();
    if (state.between) return;
    const step = stepNow();
    if (step.phase === "ready" && state.into < count.almost(step)) {
      state.into = count.almost(step);
      voice.hush();
      run();
      wait();
      return show();
    }
    const after = state.steps.findIndex((one) => one.part > step.part);
    if (after < 0) return finish();
    enter(after);
    show();
  });
  onClick("back", () => {
    const step = stepNow();
    const first = state.steps.findIndex((one) => one.part === step.part);
    const part = state.step === first && state.into < FRESH ? Math.max(step.part - 1, 0) : step.part;
    for (const played of [...state.played]) if (played >= part) state.played.delete(played);
    enter(state.steps.findIndex((one) => one.part === part));
    show();
  });
  onClick("most", () => {
    state.most = !state.most;
    const { parts, lines } = state.most ? state.form.most : state.form;
    state.steps = count.of(parts, lines);
    show();
  });
  onClick("ease", () => {
    pause();
    const { exercise, form } = state;
    const hints = form.hints.map((hint) => {
      const line = document.createElement("p");
      line.textContent = hint;
      return line;
    });
    const choices = easierOf(exercise, form).map((easier) => {
      const button = document.createElement("button");
      Object.assign(button, { type: "button", className: "button main" });
      button.textContent = fill(words.instead, { title: easier.title });
      button.addEventListener("click", () => begin(exercise, easier));
      return button;
    });
    at("easier").querySelector("div").replaceChildren(...hints, ...choices);
    at("easier").hidden = false;
    show();
    at("easier").querySelector("h3").focus();
  });
  onClick("keep", () => {
    at("easier").hidden = true;
    run();
    at("pause").focus();
  });
  onClick("onward", () => {
    const then = following();
    if (then === undefined) end();
    else begin(then);
  });
  for (const { box } of exercises) box?.addEventListener("change", showList);
  at("leave")?.addEventListener("click", () => {
    state.done.clear();
    log.clear();
    view("before");
    showList();
    toTop();
    at("start").focus({ preventScroll: true });
  });
  onClick("again", () => begin(state.exercise, state.form, state.most));
  onClick("stop", stop);
  onClick("end", end);
  onClick("go-on", () => {
    view("stage");
    show();
    at(state.between ? "onward" : "pause").focus();
  });
  for (const [name, by] of [["slower", -1], ["faster", 1]]) {
    onClick(name, () => {
      // What has passed until now passed at the speed until now.
      if (state.running) catchUp();
      choose("speed", Math.min(Math.max(settings.speed + by, 0), SPEEDS.length - 1));
      if (state.running) wait();
      show();
    });
  }
  for (const name of ["sound", "voice"]) {
    at(name).checked = settings[name];
    at(name).addEventListener("change", () => {
      choose(name, at(name).checked);
      if (!settings[name]) voice.hush();
      note();
    });
  }
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape") stop();
  });
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) return pause(words.hidden);
    // Another day may have come while nobody looked.
    if (state.view !== "before") return;
    plan();
    showList();
  });
  addEventListener("pagehide", voice.hush);
  voice.whenFound(note);
  document.addEventListener("yours", () => {
    showList();
    if (state.form === null) return;
    const { exercise, form } = state;
    const own = hers(exercise);
    if (own === form || (own && !hasSaid())) return;
    // What she does now is no longer hers.
    halt();
    if (own) stage(exercise, own);
    else {
      leave();
      view("before");
    }
  });

  log.begin(data, clock.today);
  root.classList.add("scripted");
  at("go").hidden = false;
  plan();
  view("before");
  showList();
})();
