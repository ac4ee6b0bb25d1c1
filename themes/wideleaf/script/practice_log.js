// After practice: what was done, how it was, and whom to call; it is handed to what keeps her days, where that is there.

window.practice = window.practice ?? {};

window.practice.log = (() => {
  const at = (name) => document.getElementById(`practice.${name}`);
  const form = at("log");
  let words = {};
  let of = {};
  let today = () => "";

  const keeps = () => typeof window.days?.add === "function";

  /** An entry for each row that is ticked and not written down yet. */
  function entries() {
    const told = new FormData(form);
    const shared = {
      ...of,
      on: today(),
      effort: told.get("effort") === "" ? null : Number(told.get("effort")),
      felt: told.get("felt").trim() || null,
      trouble: told.get("trouble") || null,
      how: "practice",
    };
    const boxes = [...at("did").querySelectorAll("input")].filter((box) => box.checked && !box.disabled);
    return boxes.map((box) => ({ box, entry: { ...box.done, ...shared } }));
  }

  form.addEventListener("change", () => {
    at("trouble").hidden = new FormData(form).get("trouble") === "";
  });
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const all = entries();
    if (!keeps() || all.length === 0) {
      at("kept").textContent = words.nothing;
      return;
    }
    const button = at("keeping").querySelector("button");
    button.disabled = true;
    try {
      for (const { box, entry } of all) {
        await window.days.add(entry);
        // What is written down once is not written twice.
        box.disabled = true;
      }
      at("kept").textContent = words.kept;
      document.dispatchEvent(new Event("practiced"));
    } catch {
      at("kept").textContent = words.not_kept;
    }
    button.disabled = false;
  });

  return {
    /** What the page is of, its words, and how to tell the day. */
    begin(data, day) {
      ({ words, of } = data);
      today = day;
    },
    /** Forgets what she has filled in: she may practice once more. */
    clear() {
      form.reset();
      at("trouble").hidden = true;
      at("kept").textContent = "";
    },
    /** Shows what was done: forms with their sets, none of them where it was not done to the end. */
    show(rows) {
      const list = at("did").querySelector("div");
      list.replaceChildren();
      for (const { form, sets } of rows) {
        const [label, box] = [document.createElement("label"), document.createElement("input")];
        box.type = "checkbox";
        box.checked = sets > 0;
        const name = form.variation === null ? null : form.title;
        box.done = { exercise: form.exercise, title: form.name ?? form.title, form: name, sets: Math.max(sets, 1) };
        const count = sets === 0 ? words.not_done : sets === 1 ? words.sets_one : words.sets_many;
        label.append(box, ` ${form.title}: ${count.replace("{n}", sets)}`);
        list.append(label);
      }
      at("keeping").hidden = !keeps();
      at("not-kept").hidden = keeps();
    },
  };
})();
