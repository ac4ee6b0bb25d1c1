// Saves a form of the desk whenever a field is left, shows what the review says then, and keeps what could not be saved.
// Without it the button Save does the same.

const form = document.querySelector("form[data-saves]");
const status = document.getElementById("status");
const draft = `desk:${location.pathname}`;

/** What the form would send now. */
const sent = (button) => {
  const data = new FormData(form);
  if (button) data.set("do", button);
  return new URLSearchParams(data);
};

/** What a field holds now, as the server reads it. */
const held = (field) =>
  JSON.stringify(
    [...field.querySelectorAll("[name^='now:']")]
      .filter((one) => one.type !== "checkbox" || one.checked)
      .map((one) => one.value.trim())
      .filter((value) => value !== ""),
  );

/** What a field holds is what is saved: from then on a change is told by it. */
const settle = (field) => (field.dataset.kept = held(field));
const isUnsaved = (field) => held(field) !== field.dataset.kept;
const fields = () => form.querySelectorAll(".field[data-place]");

/** The same part in the answer, where it says something else. */
const renewed = (part, other) => {
  if (part && other && part.innerHTML !== other.innerHTML) part.innerHTML = other.innerHTML;
};

/**
 * Takes over what the answer shows. A field that she has changed and that is not saved stays as she has it, and as it was when
 * she began: so what somebody else writes there meanwhile is never overwritten unseen.
 */
function renew(html) {
  const page = new DOMParser().parseFromString(html, "text/html");
  for (const live of document.querySelectorAll("[data-live]")) {
    if (!live.contains(document.activeElement)) renewed(live, page.querySelector(`[data-live="${live.dataset.live}"]`));
  }
  renewed(document.getElementById("refused"), page.getElementById("refused"));
  for (const field of fields()) {
    const other = page.querySelector(`.field[data-place="${CSS.escape(field.dataset.place)}"]`);
    if (!other) continue;
    const was = field.querySelector("input[type=hidden]");
    const now = other.querySelector("input[type=hidden]").value;
    const theirs = other.querySelector(".theirs");
    if (theirs) {
      // She sees both now: what she saves next is meant.
      field.querySelector(".theirs")?.remove();
      field.querySelector(".found").before(theirs);
      was.value = now;
    } else if (!isUnsaved(field)) {
      if (field.dataset.kept !== now && was.value !== now && !field.contains(document.activeElement)) {
        field.innerHTML = other.innerHTML;
        settle(field);
      } else if (field.dataset.kept === now || was.value === now) {
        was.value = now;
        field.querySelector(".theirs")?.remove();
      }
    }
    renewed(field.querySelector(".found"), other.querySelector(".found"));
  }
}

let saving = Promise.resolve();

async function save() {
  const body = sent("save");
  const holding = new Map([...fields()].map((field) => [field, held(field)]));
  status.textContent = "Saving…";
  try {
    const answer = await fetch(form.action, { method: "POST", body });
    const html = await answer.text();
    if (answer.ok) {
      // What she has typed since is not saved yet.
      for (const [field, then] of holding) if (held(field) === then) settle(field);
      renew(html);
      localStorage.removeItem(draft);
      status.textContent = "Saved.";
      // The review goes on after the answer.
      setTimeout(look, 400);
    } else {
      renew(html);
      status.textContent = "Not saved yet: see what is said above.";
      localStorage.setItem(draft, body.toString());
    }
  } catch {
    status.textContent = "The desk does not answer. What you typed is kept in this browser.";
    localStorage.setItem(draft, body.toString());
  }
}

/** Asks once more what the review says. */
async function look() {
  const answer = await fetch(location.pathname).catch(() => null);
  if (answer?.ok) renew(await answer.text());
}

if (form) {
  for (const field of fields()) settle(field);
  form.addEventListener("change", (event) => {
    const field = event.target.closest(".field[data-place]");
    if (field && isUnsaved(field)) saving = saving.then(save);
  });
  form.addEventListener("input", (event) => {
    // One more empty step, whenever the last one is used.
    const list = event.target.closest(".steps");
    const last = list?.lastElementChild;
    if (last?.contains(event.target) && event.target.value !== "") {
      const next = last.cloneNode(true);
      next.querySelector("textarea").value = "";
      list.append(next);
    }
  });
  // A button that moves or removes something sends the form itself, when what was typed before is saved.
  form.addEventListener("submit", (event) => {
    if (event.submitter?.value !== "save") return;
    event.preventDefault();
    saving = saving.then(save);
  });
  const kept = localStorage.getItem(draft);
  if (kept) {
    const typed = new URLSearchParams(kept);
    let brought = false;
    for (const field of fields()) {
      const controls = [...field.querySelectorAll("[name^='now:']")].filter((one) => one.type !== "checkbox");
      const values = typed.getAll(`now:${field.dataset.place}`);
      controls.forEach((one, index) => {
        if (values[index] !== undefined && values[index] !== one.value) {
          one.value = values[index];
          brought = true;
        }
      });
    }
    localStorage.removeItem(draft);
    if (brought) status.textContent = "What you typed last time is here again. It is not saved yet.";
  }
  if (document.getElementById("refused")?.childElementCount) document.getElementById("refused").focus();
}
