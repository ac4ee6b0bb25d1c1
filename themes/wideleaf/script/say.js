// The page on which a reader says what is true for her, one screen after the other. Without it the questions stay hidden.

(() => {
  const form = document.getElementById("yours.form");
  const state = document.getElementById("yours.said");
  const refused = document.getElementById("yours.refused");
  const screens = [...form.querySelectorAll(".screen")];
  const button = (what) => document.querySelector(`[data-do="${what}"]`);
  const inputs = (name) => [...form.querySelectorAll(`[name="${name}"]`)];
  const checked = (name) => inputs(name).filter((input) => input.checked).map((input) => input.value);
  let at = 0;

  function turn(to) {
    at = to;
    screens.forEach((screen, place) => {
      screen.hidden = place !== at;
    });
    const { part } = form.dataset;
    screens[at].querySelector(".part").textContent = part.replace("{n}", at + 1).replace("{count}", screens.length);
    button("back").hidden = at === 0;
    button("next").hidden = at === screens.length - 1;
    button("done").hidden = at !== screens.length - 1;
  }

  /** Goes to a screen, for who reads and for who hears it. */
  function go(to) {
    turn(to);
    screens[at].querySelector("legend").focus({ preventScroll: true });
    form.scrollIntoView({ block: "start" });
  }

  /** Puts what she has said into the questions. */
  function fill() {
    const things = yours.things();
    for (const input of inputs("precaution")) input.checked = yours.has(input.value);
    for (const input of inputs("home")) input.checked = (input.value === "own") === (things !== null);
    for (const input of inputs("thing")) input.checked = things?.includes(input.value) ?? false;
  }

  function item(text) {
    const made = document.createElement("li");
    made.textContent = text;
    return made;
  }

  const nameOf = (input) => input.parentElement.textContent.trim();

  /** What she has said, or the questions. */
  function show() {
    const said = yours.said();
    state.hidden = !said;
    form.hidden = said;
    fill();
    turn(0);
    if (!said) return;
    const known = inputs("precaution").filter((input) => yours.has(input.value));
    state.querySelector("ul").replaceChildren(...known.map((input) => item(nameOf(input))));
    state.querySelector(".nothing").hidden = known.length > 0;
    state.querySelector(".old").hidden = known.length === yours.all().length;
    const home = state.querySelector(".things");
    const things = inputs("thing").filter((input) => yours.things()?.includes(input.value));
    home.hidden = yours.things() === null;
    home.dataset.some ??= home.textContent;
    home.textContent = things.length ? `${home.dataset.some} ${things.map(nameOf).join(", ")}.` : home.dataset.none;
  }

  button("next").addEventListener("click", () => go(at + 1));
  button("back").addEventListener("click", () => go(at - 1));
  button("change").addEventListener("click", () => {
    state.hidden = true;
    form.hidden = false;
    go(0);
  });
  button("clear").addEventListener("click", () => {
    if (yours.clear()) screens[0].querySelector("legend").focus();
  });
  // Who checks a thing has said which she has.
  form.addEventListener("change", ({ target }) => {
    if (target.name === "thing") inputs("home").find((input) => input.value === "own").checked = true;
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    // Enter in one of the questions goes on.
    if (at < screens.length - 1) return go(at + 1);
    const things = checked("home")[0] === "own" ? checked("thing") : null;
    const kept = yours.set({ precautions: checked("precaution"), things });
    refused.hidden = kept;
    if (kept) document.getElementById("yours.said.title").focus();
    else refused.focus();
  });
  document.addEventListener("yours", show);
  show();
})();
