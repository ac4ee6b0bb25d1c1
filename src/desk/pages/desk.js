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

const isUnsaved = (field) => {
  const now = [...field.querySelectorAll("[name^='now:']")];
  const values = now
    .filter((one) => one.type !== "checkbox" || one.checked)
    .map((one) => one.value.trim())
    .filter((value) => value !== "");
  return JSON.stringify(values) !== field.dataset.kept;
};

/** What a field says as it stands on the page: by it a change is told. */
const settle = (field) => {
  field.dataset.kept = "";
  const values = [...field.querySelectorAll("[name^='now:']")]
    .filter((one) => one.type !== "checkbox" || one.checked)
    .map((one) => one.value.trim())
    .filter((value) => value !== "");
  field.dataset.kept = JSON.stringify(values);
};

/** Takes over what the answer shows, but for the fields themselves, which are as she has them. */
function renew(html) {
  const page = new DOMParser().parseFromString(html, "text/html");
  for (const live of document.querySelectorAll("[data-live]")) {
    const other = page.querySelector(`[data-live="${live.dataset.live}"]`);
    if (other && other.innerHTML !== live.innerHTML && !live.contains(document.activeElement)) {
      live.innerHTML = other.innerHTML;
    }
  }
  const refused = document.getElementById("refused");
  const now = page.getElementById("refused");
  if (refused && now && refused.innerHTML !== now.innerHTML) refused.innerHTML = now.innerHTML;
  for (const field of form.querySelectorAll(".field[data-place]")) {
    const other = page.querySelector(`.field[data-place="${CSS.escape(field.dataset.place)}"]`);
    if (!other) continue;
    field.querySelector("input[type=hidden]").value = other.querySelector("input[type=hidden]").value;
    const found = field.querySelector(".found");
    const told = other.querySelector(".found");
    if (found && told && found.innerHTML !== told.innerHTML) found.innerHTML = told.innerHTML;
  }
}

let saving = Promise.resolve();

async function save() {
  const body = sent("save");
  status.textContent = "Saving…";
  try {
    const answer = await fetch(form.action, { method: "POST", body });
    const html = await answer.text();
    if (answer.ok) {
      renew(html);
      for (const field of form.querySelectorAll(".field[data-place]")) settle(field);
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
  for (const field of form.querySelectorAll(".field[data-place]")) settle(field);
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
    for (const field of form.querySelectorAll(".field[data-place]")) {
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
