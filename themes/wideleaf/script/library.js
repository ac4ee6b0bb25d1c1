// Filters the list of exercises. Without it the whole list stands and the form stays hidden.

const form = document.getElementById("filter");
const count = document.getElementById("count");
const fields = ["component", "words", "position", "support", "equipment", "precaution", "mine"];
const mine = form.elements.namedItem("mine");

// Lower case and without accents, so that "rotacion" finds "Rotación".
const plain = (text) => text.normalize("NFD").replace(/\p{Mn}/gu, "").toLowerCase();

// What is said of an exercise whoever reads it.
const said = (item) => Array.from(item.querySelectorAll("h3, p:not(.yours-card)"), (one) => one.textContent).join(" ");

const entries = Array.from(document.querySelectorAll("#entries > li"), (item) => ({
  item,
  id: item.querySelector(".yours-card").dataset.exercise,
  // With the words that its page says, and those that people say for them.
  text: plain(`${said(item)} ${item.dataset.words ?? ""}`),
  has: (field, value) => (item.dataset[field] ?? "").split(" ").includes(value),
}));

function chosen() {
  const data = new FormData(form);
  return fields.map((field) => [field, (data.get(field) ?? "").trim()]).filter(([, value]) => value);
}

function matches(entry, choices) {
  return choices.every(([field, value]) => {
    if (field === "words") return plain(value).split(/\s+/).every((word) => entry.text.includes(word));
    if (field === "mine") return Boolean(yours.formOf(entry.id));
    return entry.has(field, value);
  });
}

function show() {
  const choices = chosen();
  let found = 0;
  for (const entry of entries) {
    const match = matches(entry, choices);
    entry.item.hidden = !match;
    if (match) found += 1;
  }
  const { none, one, many } = form.dataset;
  count.textContent = found === 0 ? none : found === 1 ? one : many.replace("{n}", found);
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
  for (const field of fields) {
    const control = form.elements.namedItem(field);
    if (control === mine) {
      mine.checked = query.has(field);
      continue;
    }
    control.value = query.get(field) ?? "";
    // A choice that this list does not offer is no choice.
    if (control.value !== (query.get(field) ?? "")) control.value = "";
  }
}

let waiting;
form.addEventListener("input", (event) => {
  clearTimeout(waiting);
  // While somebody types, a count after each letter would talk over the letters.
  waiting = setTimeout(() => remember(show()), event.target.type === "search" ? 400 : 0);
});
// The list is always that of the choices: who presses the button goes there.
form.addEventListener("submit", (event) => {
  event.preventDefault();
  clearTimeout(waiting);
  remember(show());
  count.scrollIntoView({ block: "start" });
  count.focus({ preventScroll: true });
});
form.addEventListener("reset", () => setTimeout(() => remember(show())));

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

recall();
offerMine();
const more = form.querySelector("details");
if (more) more.open = chosen().some(([field]) => more.querySelector(`[name="${field}"]`));
form.hidden = false;
show();
