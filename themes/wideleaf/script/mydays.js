// "My days": the days of a week with what it asks, what she has checked off, and what she says of it. All that is kept is
// kept by `window.days`; what cannot be kept stays on the page, and the page says so.
window.myDays = (() => {
  const { days, daysWeek } = window;
  const { series, language, say, count, plus, titleOf, weekOf, summary, day: written } = daysWeek;
  const element = (id) => document.getElementById(`days.${id}`);
  const byDay = (a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : a.id < b.id ? -1 : 1);

  /** Every entry by its id, as the page shows it. */
  let entries = new Map();
  /** Of these, what could not be kept: an entry, or `null` for one that should be gone. */
  const unkept = new Map();
  /** What is on its way to the device, by id in the same way. */
  const pending = new Map();
  let today = days.today();
  let chosen;
  let shown;
  /** The frames of the days that are shown. */
  let frames = [];
  const followers = [];

  const sorted = () => [...entries.values()].sort(byDay);

  // What happens to entries: first on the page, then on the device.

  async function keep(id, now, work) {
    if (now === null) entries.delete(id);
    else entries.set(id, now);
    pending.set(id, now);
    refresh();
    try {
      await work().finally(() => pending.get(id) === now && pending.delete(id));
      unkept.delete(id);
      if (unkept.size > 0) await again();
    } catch (error) {
      if (error.kind === "gone" && now !== null) {
        tell("gone");
        return keep(id, now, () => days.add(now));
      }
      unkept.set(id, now);
      tell(error.kind);
    }
  }

  const add = (entry) => keep(entry.id, entry, () => days.add(entry));
  const remove = (entry) => keep(entry.id, null, () => days.remove(entry.id));
  function change(id, fields) {
    const before = entries.get(id);
    if (!before) return;
    const now = { ...before, ...fields, changes: before.changes + 1 };
    // What is not on the device yet, or not as it is here, goes there whole.
    keep(id, now, () => (unkept.has(id) ? days.merge([now]) : days.change(id, fields)));
  }

  /** Tries to keep what could not be kept. */
  async function again() {
    const there = [...unkept.values()].filter((entry) => entry !== null);
    const gone = [...unkept.keys()].filter((id) => unkept.get(id) === null);
    if (there.length > 0) await days.merge(there);
    if (gone.length > 0) await days.remove(...gone);
    unkept.clear();
    message(say("kept_again"));
  }

  /** Brings the page to what is kept, with what could not be. `isOurs`: another window of the site has just changed it. */
  async function load(isOurs = false) {
    let found;
    let before;
    try {
      found = await days.all();
      before = await days.cleared();
    } catch (error) {
      tell(error.kind);
      return refresh();
    }
    const here = sorted().filter((entry) => !unkept.has(entry.id) && !pending.has(entry.id));
    if (found.length === 0 && (before > 0 || (here.length > 0 && !isOurs))) {
      tellCleared(before || here.length, here);
      return refresh();
    }
    entries = new Map(found.map((entry) => [entry.id, entry]));
    for (const [id, entry] of [...unkept, ...pending]) {
      if (entry === null) entries.delete(id);
      else entries.set(id, entry);
    }
    refresh();
  }

  /** Takes the entries of a file, and answers how many were new, the same, and so on. */
  async function bring(found) {
    try {
      const counts = await days.merge(found);
      if (unkept.size === 0) message("");
      entries = new Map();
      await load();
      return counts;
    } catch (error) {
      const counts = { added: 0, same: 0, renewed: 0, kept: 0 };
      for (const entry of found) {
        const mine = entries.get(entry.id);
        const isNewer = !mine || mine.changes < entry.changes;
        counts[!mine ? "added" : isNewer ? "renewed" : "same"] += 1;
        if (!isNewer) continue;
        entries.set(entry.id, entry);
        unkept.set(entry.id, entry);
      }
      tell(error.kind);
      refresh();
      return counts;
    }
  }

  // What the page says of itself. A message stays until there is another.

  function message(text, buttons = [], place = "told") {
    const line = document.createElement("p");
    line.textContent = text;
    line.tabIndex = -1;
    const offered = buttons.map(([id, press]) => {
      const made = Object.assign(document.createElement("button"), { type: "button", className: "button quiet" });
      made.textContent = say(id);
      made.addEventListener("click", press);
      return made;
    });
    // What is said already is not said again.
    if ((element(place).querySelector("p")?.textContent ?? "") === text) return;
    element(place).replaceChildren(...(text ? [line] : []), ...offered);
  }

  function tell(kind) {
    const known = ["gone", "full", "newer", "blocked", "missing"].includes(kind) ? kind : "broken";
    message(say(known), ["full", "blocked", "broken"].includes(known) ? [["again", retry]] : []);
  }

  async function retry() {
    try {
      await again();
      await load();
    } catch (error) {
      tell(error.kind);
    }
    element("told").querySelector("p").focus();
  }

  function tellCleared(before, here) {
    const start = async (put) => {
      entries = new Map();
      days.known();
      message("");
      if (put.length > 0) await bring(put);
      else await load();
      element("week").focus();
    };
    const buttons = [["known", () => start([])]];
    if (here.length > 0) buttons.unshift(["put_back", () => start(here)]);
    message([count("cleared", before), here.length > 0 && say("cleared_here")].filter(Boolean).join(" "), buttons);
  }

  /** Asks in a window of its own; the answer that keeps everything comes first. */
  function ask(question, yes) {
    const dialog = element("ask");
    element("asked").textContent = question;
    dialog.querySelector("[data-answer=yes]").textContent = yes;
    dialog.returnValue = "";
    dialog.showModal();
    return new Promise((done) => {
      dialog.addEventListener("close", () => done(dialog.returnValue === "yes"), { once: true });
    });
  }

  // A week. Its frame is made once, and what is in it is brought up to date in its place, so that no focus is lost.

  const copy = (id) => element(id).content.firstElementChild.cloneNode(true);
  const of = (day, id) => sorted().filter((entry) => entry.on === day && (id === undefined || entry.exercise === id));

  function show(day) {
    shown = weekOf(chosen, day);
    const span = say("span", { from: written(shown.start), to: written(shown.end) });
    element("week").textContent = shown.title || span;
    element("span").textContent = shown.title ? span : "";
    frames = [];
    for (let one = shown.start; one <= shown.end; one = plus(one, 1)) frames.push(dayFrame(one));
    element("list").replaceChildren(...frames.map((frame) => frame.item));
    refresh();
  }

  function open(day) {
    show(day);
    element("week").focus();
  }

  function dayFrame(day) {
    const item = copy("day");
    const frame = { day, item, rows: new Map() };
    const name = daysWeek.dayAndWeekday(day);
    for (const place of item.querySelectorAll(".day-name")) place.textContent = day === today ? `${name} (${say("today")})` : name;
    item.classList.toggle("today", day === today);
    item.querySelector("details").open = day === today;
    const asked = new Set(shown.asks.map(([id]) => id));
    const all = new Set((chosen?.weeks ?? []).flatMap((week) => week.asks.map(([id]) => id)));
    const others = [...all].filter((id) => !asked.has(id)).sort((a, b) => titleOf(a).localeCompare(titleOf(b), language));
    const select = item.querySelector("select");
    for (const id of others) select.add(new Option(titleOf(id), id));
    item.querySelector(".another").hidden = others.length === 0;
    select.addEventListener("change", () => {
      const id = select.value;
      if (id === "") return;
      select.value = "";
      if (of(day, id).length === 0) check(day, id);
      frame.rows.get(id).box.focus();
    });
    for (const [id, dose] of shown.asks) rowOf(frame, id, dose);
    return frame;
  }

  function rowOf(frame, id, dose, entry) {
    const item = copy("row");
    const row = { item, box: item.querySelector("input"), times: new Map(), isAsked: dose !== undefined };
    item.querySelector(".did-name").textContent = titleOf(id, entry);
    item.querySelector(".ask-dose").textContent = dose ?? "";
    row.box.addEventListener("change", () => (row.box.checked ? check(frame.day, id) : uncheck(frame.day, id, row.box)));
    frame.rows.set(id, row);
    frame.item.querySelector(".did-list").append(item);
    return row;
  }

  function check(day, id) {
    const blank = { form: daysWeek.formOf(id), sets: null, effort: null, felt: null, trouble: null };
    const of = { exercise: id, title: titleOf(id), series: chosen?.id ?? null, week: shown.number };
    // Two windows that check off the same thing check it off once.
    add({ id: `${day} ${id}`, ...of, ...blank, on: day, how: "ticked", changes: 0 });
  }

  const isBare = (entry) =>
    entry.how === "ticked" &&
    entry.form === daysWeek.formOf(entry.exercise) &&
    [entry.sets, entry.effort, entry.felt, entry.trouble].every((one) => one === null);

  async function uncheck(day, id, box) {
    const those = of(day, id);
    const sure = those.every(isBare) || (await ask(say("ask_off", { title: titleOf(id, those[0]) }), say("yes_off")));
    if (sure) for (const entry of those) remove(entry);
    else box.checked = true;
  }

  function timeOf(row, { id, exercise, form, sets }) {
    const item = copy("time");
    const field = (name) => item.querySelector(`[name=${name}]`);
    const known = daysWeek.forms(exercise).filter((one) => one !== daysWeek.formOf(exercise));
    const own = form && form !== daysWeek.formOf(exercise) ? [form] : [];
    for (const one of new Set([...known, ...own])) field("form").add(new Option(one, one));
    item.querySelector(".form").hidden = field("form").options.length < 2;
    if (sets > 10) field("sets").add(new Option(String(sets)));
    for (const name of ["sets", "effort"]) {
      field(name).addEventListener("change", () => change(id, { [name]: field(name).value === "" ? null : Number(field(name).value) }));
    }
    field("form").addEventListener("change", () => change(id, { form: field("form").value || null }));
    // Her words are kept while she writes: she may not come back to the page.
    let waiting;
    const felt = () => {
      clearTimeout(waiting);
      const text = field("felt").value.trim() || null;
      if (entries.has(id) && entries.get(id).felt !== text) change(id, { felt: text });
    };
    field("felt").addEventListener("change", felt);
    field("felt").addEventListener("input", () => {
      clearTimeout(waiting);
      waiting = setTimeout(felt, 600);
    });
    for (const radio of item.querySelectorAll("[type=radio]")) {
      radio.name = `trouble ${id}`;
      radio.addEventListener("change", () => {
        whom(item, radio.value, true);
        change(id, { trouble: radio.value || null });
      });
    }
    item.querySelector(".take-off").addEventListener("click", async () => {
      if (!(await ask(say("ask_off", { title: item.closest(".did-list > li").querySelector(".did-name").textContent }), say("yes_off")))) return;
      remove(entries.get(id));
      row.box.focus();
    });
    const made = { item, felt };
    row.times.set(id, made);
    row.item.querySelector(".times").append(item);
    return made;
  }

  /** Whom to call, at once; read out when she has just said so. */
  function whom(item, kind, isNew) {
    const place = item.querySelector(".whom-now");
    if ((place.dataset.kind ?? "") === kind) return;
    place.dataset.kind = kind;
    const box = kind ? document.querySelector(`template[data-trouble=${kind}]`).content.firstElementChild.cloneNode(true) : "";
    if (isNew && box) box.setAttribute("role", "alert");
    place.replaceChildren(box);
    if (isNew && box) box.querySelector(".call").scrollIntoView({ block: "nearest" });
  }

  // Bringing the page up to date.

  function refresh() {
    if (!shown) return;
    for (const frame of frames) refreshDay(frame);
    const all = sorted();
    const ends = [chosen?.weeks[0]?.on, all[0]?.on, all.at(-1)?.on, today].filter(Boolean).sort();
    element("earlier").disabled = shown.start <= ends[0];
    element("later").disabled = shown.end >= ends.at(-1);
    element("now").parentElement.hidden = today >= shown.start && today <= shown.end;
    const first = beginning();
    const starts = first && first > today ? say("starts", { day: daysWeek.dayAndWeekday(first) }) : "";
    element("note").textContent = series.length === 0 ? say("no_series") : starts;
    element("empty").hidden = all.length > 0;
    element("no-chart").hidden = window.daysChart(element("chart"), { entries: all, series: chosen, today, open }) > 0;
    const ahead = all.filter((entry) => entry.on > today);
    const values = { day: ahead.length > 0 ? written(ahead[0].on) : "", today: written(today) };
    if (ahead.length === 0) message("", [], "ahead");
    else message(count("ahead", ahead.length, values), [["show", () => open(ahead[0].on)]], "ahead");
    for (const follow of followers) follow();
  }

  function refreshDay(frame) {
    const done = of(frame.day);
    const isToCome = frame.day > today && done.length === 0;
    frame.item.querySelector("details").hidden = isToCome;
    frame.item.querySelector(".to-come").hidden = !isToCome;
    frame.item.querySelector(".day-done").textContent = count("done", new Set(done.map((entry) => entry.exercise)).size);
    for (const entry of done) if (!frame.rows.has(entry.exercise)) rowOf(frame, entry.exercise, undefined, entry);
    for (const [id, row] of frame.rows) {
      const mine = done.filter((entry) => entry.exercise === id);
      row.box.checked = mine.length > 0;
      for (const [other, { item }] of row.times) {
        if (mine.some((entry) => entry.id === other)) continue;
        item.remove();
        row.times.delete(other);
      }
      for (const entry of mine) refreshTime((row.times.get(entry.id) ?? timeOf(row, entry)).item, entry, mine.length > 1);
      // What the week does not ask goes with its last entry, but not from under her finger.
      if (mine.length === 0 && !row.isAsked && !row.item.contains(document.activeElement)) {
        row.item.remove();
        frame.rows.delete(id);
      }
    }
  }

  function refreshTime(item, entry, isOneOfSeveral) {
    for (const name of ["sets", "effort", "form", "felt"]) {
      const field = item.querySelector(`[name=${name}]`);
      // Nothing is put in the place of words that she is writing.
      if (field !== document.activeElement || field.tagName !== "TEXTAREA") field.value = entry[name] ?? "";
    }
    for (const radio of item.querySelectorAll("[type=radio]")) radio.checked = radio.value === (entry.trouble ?? "");
    whom(item, entry.trouble ?? "", false);
    const head = say(entry.how === "practice" ? "practice" : "went");
    const said = [summary(entry), entry.felt && say("felt")].filter(Boolean).join(", ");
    item.querySelector("summary").textContent = said ? `${head}: ${said}` : head;
    item.querySelector(".take-off").parentElement.hidden = !isOneOfSeveral;
  }

  // The series and the weeks, and what happens outside this page.

  /** The series of the newest entry, else the one that began last, else the first. */
  function current() {
    const last = sorted().findLast((entry) => series.some((one) => one.id === entry.series));
    if (last) return series.find((one) => one.id === last.series);
    const begun = series.filter((one) => one.weeks[0]?.on <= today);
    return begun.sort((a, b) => (a.weeks[0].on < b.weeks[0].on ? 1 : -1))[0] ?? series[0];
  }

  /** The day before which nothing is asked. */
  const beginning = () => (chosen?.goes_on ? undefined : chosen?.weeks[0]?.on);

  function choose(one) {
    chosen = one;
    element("series").value = one?.id ?? "";
    const first = beginning();
    show(first && today < first ? first : today);
  }

  /** Keeps the words that she is still writing. */
  function hurry() {
    for (const { rows } of frames) for (const { times } of rows.values()) for (const { felt } of times.values()) felt();
  }

  for (const one of series) element("series").add(new Option(one.title, one.id));
  element("which").hidden = series.length < 2;
  element("series").addEventListener("change", () => choose(series.find((one) => one.id === element("series").value)));
  element("earlier").addEventListener("click", () => open(plus(shown.start, -1)));
  element("later").addEventListener("click", () => open(plus(shown.end, 1)));
  element("now").addEventListener("click", () => open(today));
  element("form").addEventListener("submit", (event) => event.preventDefault());
  // Browsers bring the line that is written on into view, and may leave the rest of its field below.
  element("form").addEventListener("focusin", ({ target }) => target.matches("textarea") && target.scrollIntoView({ block: "nearest" }));
  for (const answer of element("ask").querySelectorAll("button")) {
    answer.addEventListener("click", () => element("ask").close(answer.dataset.answer));
  }

  element("erase").addEventListener("click", async () => {
    if (entries.size > 0) {
      if (!(await ask(count("ask_erase", entries.size), say("yes_erase")))) return;
      try {
        await days.erase();
        [entries, unkept].forEach((map) => map.clear());
        message(say("erased"));
      } catch (error) {
        tell(error.kind);
      }
      refresh();
    } else message(say("ask_erase_none"));
    element("told").querySelector("p").focus();
  });

  days.watch(async (what) => {
    if (what === "erased") {
      [entries, unkept].forEach((map) => map.clear());
      message(say("erased_elsewhere"));
    }
    await load(true);
  });
  // Practice now stands on the same page.
  document.addEventListener("practiced", () => load(true));
  document.addEventListener("visibilitychange", async () => {
    if (document.visibilityState === "hidden") return hurry();
    if (days.today() !== today) {
      today = days.today();
      show(today);
    }
    await load();
  });
  window.addEventListener("pagehide", hurry);
  window.addEventListener("beforeunload", (event) => {
    if (unkept.size > 0) event.preventDefault();
  });

  // Nothing is shown before it is known what is kept: nothing moves under her finger.
  element("form").setAttribute("aria-busy", "true");
  load().finally(() => {
    choose(current());
    element("form").hidden = false;
    element("form").removeAttribute("aria-busy");
    if (entries.size > 0) navigator.storage?.persist?.().catch(() => {});
  });

  return { entries: sorted, shown: () => shown, bring, message: (text, buttons, place) => message(text, buttons, place), refreshed: (follow) => followers.push(follow) };
})();
