// Finds exercises in a library that stands on several pages. Without it the form stays hidden, and the pages of each
// kind list every exercise.

const form = document.getElementById("filter");
const count = document.getElementById("count");
const found = document.getElementById("found");
const list = document.getElementById("entries");
const more = document.getElementById("more");
// In the order in which a set has them.
const fields = ["component", "position", "support", "equipment", "precaution"];
// As many as a person looks through, and as a telephone draws at once.
const STEP = 60;

// Lower case and without accents, so that "rotacion" finds "Rotación".
const plain = (text) => text.normalize("NFD").replace(/\p{Mn}/gu, "").toLowerCase();

const offered = JSON.parse(document.getElementById("find.list").textContent);
const places = fields.map((field) => new Map(offered[field].map((choice, at) => [choice.id, at])));
const entries = offered.exercises.map(([href, title, summary, set, everyday, called = ""]) => {
  const has = offered.sets[set];
  const kind = offered.component[has[0][0]];
  const position = offered.position[has[1][0]].word;
  const text = plain([title, called, summary, position, kind.word, ...everyday.map((at) => offered.everyday[at])].join(" "));
  return { href, title, called, summary, has, kind, position, text };
});

const mine = form.elements.namedItem("mine");

/** True when she can do some form of it. */
const suits = ({ has }) =>
  has[5].some((at) => {
    const [no, needs] = offered.forms[at];
    return yours.suits(no.map((one) => offered.known[one]), needs.map((one) => offered.things[one]), offered.known);
  });

function chosen() {
  const data = new FormData(form);
  const all = ["words", ...fields, "mine"].map((field) => [field, (data.get(field) ?? "").trim()]);
  return all.filter(([, value]) => value);
}

function matches(entry, choices) {
  return choices.every(([field, value]) => {
    if (field === "words") return plain(value).split(/\s+/).every((word) => entry.text.includes(word));
    if (field === "mine") return suits(entry);
    const at = fields.indexOf(field);
    return entry.has[at].includes(places[at].get(value));
  });
}

function drawn({ href, title, called, summary, kind, position }) {
  const item = document.querySelector(`template[data-kind="${kind.id}"]`).content.firstElementChild.cloneNode(true);
  const [told, where] = item.querySelectorAll("div p");
  const link = item.querySelector("a");
  link.href = href;
  link.textContent = title;
  told.textContent = summary;
  where.textContent = `${position}.`;
  // Few exercises have other names.
  if (called) {
    const names = where.cloneNode();
    names.textContent = called;
    told.before(names);
  }
  return item;
}

let waits = [];

function showMore() {
  const items = waits.slice(0, STEP).map(drawn);
  waits = waits.slice(STEP);
  list.append(...items);
  more.hidden = waits.length === 0;
  return items[0];
}

function show() {
  const choices = chosen();
  waits = choices.length ? entries.filter((entry) => matches(entry, choices)) : [];
  const { none, one, many } = form.dataset;
  const told = waits.length === 0 ? none : waits.length === 1 ? one : many.replace("{n}", waits.length);
  count.textContent = choices.length ? told : "";
  found.hidden = waits.length === 0;
  list.replaceChildren();
  showMore();
  return choices;
}

// The address keeps the choices, so that a list can be sent to somebody or found again.
function remember(choices) {
  const query = new URLSearchParams(choices).toString();
  const address = location.pathname + (query ? `?${query}` : "") + location.hash;
  history.replaceState(null, "", address);
}

function recall() {
  const query = new URLSearchParams(location.search);
  for (const field of ["words", ...fields]) {
    const control = form.elements.namedItem(field);
    control.value = query.get(field) ?? "";
    // A choice that this list does not offer is no choice.
    if (control.value !== (query.get(field) ?? "")) control.value = "";
  }
  mine.checked = query.has("mine");
}

// Only who has said what is true for her can ask for what is hers.
function offerMine() {
  const said = yours.said();
  mine.closest("label").hidden = !said;
  form.querySelector(".yours-filter .say").hidden = said;
  if (!said) mine.checked = false;
}
document.addEventListener("yours", () => {
  offerMine();
  remember(show());
});

let waiting;
form.addEventListener("input", (event) => {
  clearTimeout(waiting);
  // While somebody types, a count after each letter would talk over the letters.
  waiting = setTimeout(() => remember(show()), event.target.type === "search" ? 400 : 0);
});
// What is found is always that of the choices: who presses the button goes there.
form.addEventListener("submit", (event) => {
  event.preventDefault();
  clearTimeout(waiting);
  remember(show());
  count.scrollIntoView({ block: "start" });
  count.focus({ preventScroll: true });
});
form.addEventListener("reset", () => setTimeout(() => remember(show())));
// Who goes on by keyboard goes on at the first of those that came.
more.addEventListener("click", () => showMore()?.querySelector("a").focus());

recall();
offerMine();
const choices = form.querySelector("details");
if (choices) choices.open = chosen().some(([field]) => choices.querySelector(`[name="${field}"]`));
form.hidden = false;
show();
