// Shows the movement of a drawn figure when the reader asks: from its start to its finish and back, a few times, then
// the still picture again. Where movement on screens is not wanted, its poses come one after the other. Without this
// script the button stays hidden.

const TIMES = 3;
const TIMES_CALM = 2;
const STEADY = 1.8;
const QUICK = 0.3;
const REST = 0.45;
const LOOK = 1.5;

const calm = matchMedia("(prefers-reduced-motion: reduce)");

const reversed = (list) => [...list].reverse();
const momentsOf = (animation) => animation.dataset.moments.split(";");

/** Each moment of a movement with its time in seconds, and the end: it sets off gently to each pose and rests there. */
function timeline(moments, paces, goesBack) {
  const steps = (moments.length - 1) / paces.length;
  const frames = [[moments[0], 0]];
  let now = REST;
  const go = (leg, seconds) => {
    leg.forEach((moment, step) => {
      frames.push([moment, now + (seconds * Math.acos(1 - (2 * step) / steps)) / Math.PI]);
    });
    now += seconds + REST;
  };
  const legs = paces.map((_, at) => moments.slice(at * steps, (at + 1) * steps + 1));
  legs.forEach((leg, at) => go(leg, paces[at] === "quick" ? QUICK : STEADY));
  if (goesBack) reversed(legs).forEach((leg) => go(reversed(leg), STEADY));
  frames.push([frames[frames.length - 1][0], now]);
  return { frames, end: now };
}

/** The poses alone, each for a while. */
function poses(moments, paces) {
  const steps = (moments.length - 1) / paces.length;
  const all = moments.filter((_, at) => at % steps === 0);
  return { frames: all.map((moment, at) => [moment, at * LOOK]), end: all.length * LOOK };
}

/** Gives an animation its moments with their times. */
function prepare(animation, goesBack) {
  const moments = momentsOf(animation);
  const paces = animation.closest("[data-paces]").dataset.paces.split(" ");
  const { frames, end } = calm.matches ? poses(moments, paces) : timeline(moments, paces, goesBack);
  animation.setAttribute("calcMode", calm.matches ? "discrete" : "linear");
  animation.setAttribute("values", frames.map(([moment]) => moment).join(";"));
  animation.setAttribute("keyTimes", frames.map(([, time]) => (time / end).toFixed(4)).join(";"));
  animation.setAttribute("dur", `${end}s`);
  animation.setAttribute("repeatCount", calm.matches ? TIMES_CALM : TIMES);
}

for (const button of document.querySelectorAll("button[data-poses]")) {
  const figure = button.closest("figure");
  const animations = () => [...figure.querySelectorAll("animate")];
  // Beside its words stands which exercise it is about, for those who hear the page.
  const words = button.querySelector("span") ?? button;
  const show = words.textContent;
  const moving = () => figure.classList.contains("moving");
  const offer = () => {
    words.textContent = calm.matches ? button.dataset.poses : show;
    button.hidden = false;
  };

  const stop = () => {
    figure.classList.remove("moving");
    offer();
    // New ones in their place: one that has only just begun would not end when it is told to.
    animations().forEach((animation) => animation.replaceWith(animation.cloneNode()));
  };
  const start = () => {
    figure.classList.add("moving");
    words.textContent = button.dataset.stop;
    // Not before: a preview may have changed the figure since.
    animations().forEach((animation) => {
      animation.dataset.moments ??= animation.getAttribute("values");
    });
    // A movement that ends as it has begun needs no way back.
    const returns = animations().every((animation) => {
      const moments = momentsOf(animation);
      return moments[0] === moments[moments.length - 1];
    });
    animations().forEach((animation) => prepare(animation, !returns));
    animations()[0].addEventListener("endEvent", stop, { once: true });
    animations().forEach((animation) => animation.beginElement());
  };

  button.addEventListener("click", () => (moving() ? stop() : start()));
  calm.addEventListener("change", () => (moving() ? stop() : offer()));
  offer();
}
