// What is true for the reader, as she has said it on this device: `yours`. It finds in the table of a page which form of an
// exercise is hers. The table has been asked of the program's own choice: whom each form is not for and why, and in which
// order forms are tried. Here nothing is judged. Without this script a page shows every form.

window.yours = (() => {
  // Several sites may share an address: each has answers of its own.
  const root = new URL("./", document.querySelector("link[rel=manifest]").href);
  const key = `steadyleaf yours ${root.pathname}`;
  const element = (id) => document.getElementById(id);

  // --- What she has said: ids of precautions, and the words of things; no things are named when she has not said which she has.

  let said = read();
  let before = null;

  function read() {
    try {
      return checked(JSON.parse(localStorage.getItem(key)));
    } catch {
      return null;
    }
  }

  function checked(value) {
    const texts = (list) => Array.isArray(list) && list.every((one) => typeof one === "string");
    if (!value || !texts(value.precautions)) return null;
    return { precautions: value.precautions, things: texts(value.things) ? value.things : null };
  }

  /** Keeps what she says, `null` for nothing. False where the browser keeps nothing. */
  function keep(value) {
    try {
      if (value) localStorage.setItem(key, JSON.stringify(value));
      else localStorage.removeItem(key);
    } catch {
      return false;
    }
    said = value;
    return true;
  }

  const all = () => (said ? [...said.precautions] : []);
  const has = (id) => all().includes(id);
  const things = () => (said?.things ? [...said.things] : null);

  function set({ precautions, things = null }) {
    if (!keep({ precautions: [...precautions], things: things && [...things] })) return tell("refused");
    before = null;
    return changed("told");
  }

  function clear() {
    const was = said;
    if (!keep(null)) return tell("refused");
    before = was;
    return changed("cleared");
  }

  function bringBack() {
    if (before && keep(before)) {
      before = null;
      changed("back");
    }
  }

  function changed(what) {
    show();
    if (what) tell(what);
    document.dispatchEvent(new CustomEvent("yours"));
    return true;
  }

  /** Says once, to those who hear the page, what has come of it. */
  function tell(what) {
    element("yours.told").textContent = element("yours.told").dataset[what];
    return what !== "refused";
  }

  // --- The form that is hers.

  let read_table;
  const table = () => (read_table ??= JSON.parse(element("yours.table")?.textContent ?? "null"));

  let read_said;
  let places;

  /** What is known of her by the lists of the table: places of precautions, hers and those that all have. */
  function hers() {
    const place = (id) => table().precautions.findIndex(([known]) => known === id);
    if (read_said !== said) places = [...new Set([...said.precautions.map(place), ...table().have])];
    read_said = said;
    return places;
  }

  /** True when she has a thing with these words, or has not said what she has. */
  function serves(words) {
    const home = said.things?.map((thing) => new Set(thing.split(" ")));
    return !home || home.some((own) => words.split(" ").every((word) => !word || own.has(word)));
  }

  const lacks = (form) => (form.needs ?? []).map((at) => table().things[at]).filter(([words]) => !serves(words));

  /** For a page without a table: true when a form is hers that is not for some, and needs some things. */
  const suits = (no, needs, known) =>
    said.precautions.every((id) => known.includes(id) && !no.includes(id)) && needs.every(serves);

  /** Why a form is not for her, the weightiest first: places of a reason, a precaution and a demand. */
  function against(form, mine) {
    // Of what the page has never heard, nobody can say for whom it is.
    if (form.never || mine.includes(-1)) return [[0]];
    const all = mine.flatMap((who) => form.no.filter(([one]) => one === who));
    return all.map(([who, reason, demand]) => [reason, who, demand]).sort(([a], [b]) => a - b);
  }

  /** The form of an exercise that is hers: its place in the table; `null` for none. */
  function chosen(id) {
    const mine = hers();
    for (const [named, own] of table().asked[id]) {
      const sent = named.filter(([who]) => who.some((one) => mine.includes(one))).map(([, form]) => form);
      for (const at of [...sent, ...own]) {
        const form = table().forms[at];
        if (!against(form, mine).length && !lacks(form).length) return at;
      }
    }
    return null;
  }

  /** `undefined` when she has said nothing, and of an exercise that the page does not have. */
  function formOf(id) {
    if (!said || !table()?.asked[id]) return undefined;
    const at = chosen(id);
    if (at === null) return null;
    const form = table().forms[at];
    return { exercise: form.of, variation: form.at ?? null };
  }

  // --- Words.

  const filled = (text, words) => text.replace(/\{(\w+)\}/g, (whole, name) => words[name] ?? whole);
  const say = (name, words = {}) => filled(table().say[`yours-${name}`], words);

  /** Why the exercise as it stands is not for her: the sentence, and whether it says to ask. */
  function because(id) {
    const form = table().forms[table().asked[id][0][1][0]];
    const [first] = against(form, hers());
    if (!first) {
      const names = lacks(form).map(([, name]) => name);
      return { asks: false, text: say("lacks", { things: names.join(", ") }) };
    }
    const [reason, who, demand] = first;
    const [asks, text] = table().reasons[reason];
    return { asks, text: filled(text, { who: table().precautions[who]?.[1], demand: table().demands[demand] }) };
  }

  /** What a form is called. */
  const titleOf = ({ of, title }) => title ?? table().exercises[of][0];

  function paragraph(text, kind = "") {
    const made = document.createElement("p");
    made.textContent = text;
    made.className = kind;
    return made;
  }

  // --- What pages show of it. What they show now is remembered, so that nothing is drawn again that stands.

  const shown = new WeakMap();

  function show() {
    chip();
    const state = JSON.stringify(said);
    for (const place of document.querySelectorAll(".yours-place, .yours-card")) {
      if (shown.get(place) === state || !table()) continue;
      shown.set(place, state);
      if (place.matches(".yours-card")) showCard(place);
      else showPlace(place);
    }
  }

  function chip() {
    const link = element("yours.chip").querySelector("a");
    for (const invite of document.querySelectorAll(".yours-invite")) invite.hidden = Boolean(said);
    element("yours.chip").hidden = !said;
    element("yours.cleared").hidden = Boolean(said) || !before;
    if (!said) return;
    const count = said.precautions.length + (said.things?.length ?? 0);
    const { none, one, many } = element("yours.chip").dataset;
    link.textContent = count === 0 ? none : count === 1 ? one : many.replace("{n}", count);
  }

  function showPlace(place) {
    const { exercise: id, title } = place.dataset;
    const box = place.querySelector(".yours-form");
    const article = place.closest("article");
    const at = said ? chosen(id) : undefined;
    box.hidden = at === undefined;
    box.replaceChildren();
    const base = table().asked[id][0][1][0];
    box.classList.toggle("as-shown", at === base);
    box.classList.toggle("none", at === null);
    article.classList.toggle("not-hers", at !== undefined && at !== base);
    article.classList.remove("opened", "own-dose");
    if (at === undefined) return;
    if (at !== null) box.append(formHere(place, at));
    if (at === base) {
      // Her own dose stands in the place of the one that is shown.
      article.classList.toggle("own-dose", box.querySelector(".her-dose") !== null);
      return;
    }
    const { asks, text } = because(id);
    const heading = document.createElement(article.querySelector("h1") ? "h2" : "h3");
    heading.textContent = say(asks ? "ask-before" : "not", { title });
    const not = document.createElement("div");
    not.className = asks ? "yours-not ask" : "yours-not";
    not.append(heading, paragraph(text));
    if (at === null) not.append(paragraph(say("none")));
    not.append(opener(article));
    box.append(not);
  }

  /** A form with the cautions and the dose that are hers. */
  function formHere(place, at) {
    const form = place.querySelector(`template[data-form="${at}"]`).content.cloneNode(true);
    const ids = new Set(hers().map((one) => table().precautions[one]?.[0]));
    const changes = [];
    for (const caution of form.querySelectorAll(".for-some")) {
      const who = caution.dataset.for;
      if (who && !who.split(" ").some((id) => ids.has(id))) caution.remove();
      else if (caution.dataset.dose) changes.push(caution.dataset.dose);
    }
    for (const care of form.querySelectorAll(".yours-care")) if (!care.querySelector(".for-some")) care.remove();
    const when = changes.sort().join(" ");
    for (const dose of form.querySelectorAll(".her-dose")) if (dose.dataset.when !== when) dose.remove();
    // Of the exercise as it stands the dose is on the page, unless it is another for her.
    if (form.querySelector(".as-shown") && !when) form.querySelector(".her-dose")?.remove();
    return form;
  }

  /** Opens and closes the rest of an exercise that is not for her as it is shown. */
  function opener(article) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "button quiet";
    const tell = () => {
      const open = article.classList.contains("opened");
      button.textContent = say(open ? "hide" : "show");
      button.setAttribute("aria-expanded", open);
    };
    button.addEventListener("click", () => {
      article.classList.toggle("opened");
      tell();
    });
    tell();
    return button;
  }

  function showCard(card) {
    const id = card.dataset.exercise;
    const at = said ? chosen(id) : undefined;
    card.hidden = at === undefined;
    card.replaceChildren();
    card.className = "yours-card";
    const base = table().asked[id][0][1][0];
    const others = (form) => hers().some((one) => form.doses?.includes(one));
    card.closest("li").classList.toggle("not-as-shown", at !== undefined && (at !== base || others(table().forms[at])));
    if (at === undefined) return;
    if (at === null) {
      const { asks, text } = because(id);
      card.classList.add(asks ? "ask" : "none");
      card.append(strong(say("card-not")), "short" in card.dataset ? "" : ` ${text}`);
      return;
    }
    const form = table().forms[at];
    if (at === base) card.append(strong(say("card-fine")));
    else if (form.of === id || "short" in card.dataset) card.append(strong(say("card-form", { title: titleOf(form) })));
    else {
      const link = document.createElement("a");
      link.href = table().exercises[form.of][1];
      link.textContent = say("card-form", { title: titleOf(form) });
      card.append(link);
    }
  }

  function strong(text) {
    const made = document.createElement("strong");
    made.textContent = text;
    return made;
  }

  element("yours.chip").querySelector(".clear").addEventListener("click", () => {
    // Who has no page of hers to go to goes on where she was.
    if (clear() && !element("yours.cleared").hidden) element("yours.cleared").querySelector(".undo").focus();
  });
  element("yours.cleared").querySelector(".undo").addEventListener("click", () => {
    bringBack();
    element("yours.chip").querySelector("a").focus();
  });
  // Said in another tab, or while this page was put aside.
  const again = (what) => {
    const now = read();
    if (JSON.stringify(now) === JSON.stringify(said)) return;
    said = now;
    before = null;
    changed(what);
  };
  window.addEventListener("storage", (event) => {
    if (event.key === key || event.key === null) again("told");
  });
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) again();
  });
  show();

  return { all, has, things, set, clear, formOf, suits, show, said: () => said !== null };
})();
