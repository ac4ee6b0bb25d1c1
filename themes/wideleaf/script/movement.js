// Shows the movement of a drawn figure when the reader asks: from its start to its finish and back, a few times, then
// the still picture again. Without it, or where movement on screens is not wanted, the button stays hidden.

const TIMES = 3;
const SECONDS_A_STEP = 0.25;
// The part of the time in which the figure rests at its start, and again at its finish.
const REST = 0.1;

const calm = matchMedia("(prefers-reduced-motion: reduce)");

/** Gives an animation its way back and its times, unless it has them: it sets off gently, and rests at both ends. */
function prepare(animation) {
  if (animation.hasAttribute("keyTimes")) return;
  const there = animation.getAttribute("values").split(";");
  const last = there.length - 1;
  const moves = 0.5 - REST;
  const times = there.map((_, step) => (moves * Math.acos(1 - (2 * step) / last)) / Math.PI);
  const back = times.map((time) => 0.5 + time);
  animation.setAttribute("values", [...there, ...[...there].reverse(), there[0]].join(";"));
  animation.setAttribute("keyTimes", [...times, ...back, 1].map((time) => time.toFixed(4)).join(";"));
  animation.setAttribute("dur", `${(2 * last + 2) * SECONDS_A_STEP}s`);
  animation.setAttribute("repeatCount", TIMES);
}

for (const button of document.querySelectorAll("button[data-stop]")) {
  const figure = button.closest("figure");
  const animations = () => [...figure.querySelectorAll("animate")];
  const show = button.textContent;
  const moving = () => figure.classList.contains("moving");

  const stop = () => {
    figure.classList.remove("moving");
    button.textContent = show;
    // New ones in their place: one that has only just begun would not end when it is told to.
    animations().forEach((animation) => animation.replaceWith(animation.cloneNode()));
  };
  const start = () => {
    figure.classList.add("moving");
    button.textContent = button.dataset.stop;
    // Not before: a preview may have changed the figure since.
    animations().forEach(prepare);
    animations()[0].addEventListener("endEvent", stop, { once: true });
    animations().forEach((animation) => animation.beginElement());
  };

  button.addEventListener("click", () => (moving() ? stop() : start()));
  const offer = () => {
    if (calm.matches && moving()) stop();
    button.hidden = calm.matches;
  };
  calm.addEventListener("change", offer);
  offer();
}
