// Reads a page aloud with a voice of the device itself, in the language of the page: a voice from elsewhere would send the
// page away. Without such a voice the button stays hidden.
{
  const button = document.getElementById("page.read");
  const speech = window.speechSynthesis;
  const PARTS = "h1, h2, h3, h4, p, li, dt, dd, figcaption, caption, th, td, summary";

  const plain = (code) => code.toLowerCase().split(/[-_]/)[0];
  const language = document.documentElement.lang;
  const voice = () => speech.getVoices().find((one) => one.localService && plain(one.lang) === plain(language));

  const offer = button?.textContent;
  let waiting = null;

  /** What is seen of the page, in pieces that are not inside each other. */
  function parts() {
    const all = document.querySelectorAll(`main :is(${PARTS})`);
    return [...all].filter((part) => part.checkVisibility() && !part.querySelector(PARTS) && part.innerText.trim());
  }

  function mark(part) {
    document.querySelector(".being-read")?.classList.remove("being-read");
    part?.classList.add("being-read");
    part?.scrollIntoView({ block: "nearest" });
  }

  function stop() {
    if (waiting === null) return;
    waiting = null;
    speech.cancel();
    mark(null);
    button.textContent = offer;
  }

  function next(list) {
    // Another reading has begun, or none goes on.
    if (waiting !== list) return;
    const part = list.shift();
    if (!part) return stop();
    const said = new SpeechSynthesisUtterance(part.innerText);
    said.lang = part.closest("[lang]").lang;
    said.voice = voice() ?? null;
    said.onend = () => next(list);
    said.onerror = stop;
    mark(part);
    speech.speak(said);
  }

  function start() {
    speech.cancel();
    waiting = parts();
    button.textContent = button.dataset.stop;
    next(waiting);
  }

  if (button && speech && window.SpeechSynthesisUtterance) {
    const show = () => (button.hidden = !voice());
    button.addEventListener("click", () => (waiting === null ? start() : stop()));
    // Some browsers know their voices only after a while.
    speech.addEventListener?.("voiceschanged", show);
    addEventListener("pagehide", stop);
    show();
  }
}
