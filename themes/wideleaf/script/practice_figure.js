// Moves the drawn figure of a form by the clock of the count. Where movement is not wanted it goes from pose to pose with
// nothing in between.

window.practice = window.practice ?? {};

window.practice.figure = (() => {
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  /** A quick movement in shares of a steady one. */
  const QUICK = 0.2;
  /** While she gets ready, and in what is not counted, it goes once to and fro in this time, in milliseconds. */
  const STROLL = 4000;
  /** Into a hold and out of it. */
  const WAY = 1000;
  let held = null;

  /** The share of the whole movement at which each of its moments comes: it sets off gently to each pose, and arrives so. */
  function timesOf(count, paces) {
    const steps = (count - 1) / paces.length;
    const weights = paces.map((pace) => (pace === "quick" ? QUICK : 1));
    const sum = (list) => list.reduce((all, one) => all + one, 0);
    return Array.from({ length: count }, (_, index) => {
      const leg = Math.min(Math.floor(index / steps), paces.length - 1);
      const along = Math.acos(1 - (2 * (index - leg * steps)) / steps) / Math.PI;
      return (sum(weights.slice(0, leg)) + along * weights[leg]) / sum(weights);
    });
  }

  function release() {
    if (held === null) return;
    held.picture.classList.remove("moving");
    held.moving.forEach((animation, index) => animation.replaceWith(held.still[index]));
    held.drawing.unpauseAnimations();
    held = null;
  }

  /** Takes the figure of an article in hand: its movement stands still at any place from 0, its start, to 1, its end. */
  function hold(article) {
    release();
    const picture = article.querySelector(".can-move");
    if (picture === null) return;
    const drawing = picture.querySelector(".poses > svg:last-of-type");
    const still = [...drawing.querySelectorAll("animate")];
    if (still.length === 0) return;
    const paces = drawing.querySelector("[data-paces]").dataset.paces.split(" ");
    const all = still.map((animation) => animation.getAttribute("values").split(";"));
    const moving = still.map((animation, index) => {
      const copy = animation.cloneNode();
      const times = timesOf(all[index].length, paces).map((time) => time.toFixed(4));
      const how = { begin: "0s", dur: "1s", fill: "freeze", calcMode: "linear", keyTimes: times.join(";") };
      Object.entries(how).forEach(([name, value]) => copy.setAttribute(name, value));
      animation.replaceWith(copy);
      return copy;
    });
    drawing.pauseAnimations();
    const times = timesOf(all[0].length, paces);
    const poses = times.filter((_, index) => index % ((times.length - 1) / paces.length) === 0);
    // A movement that ends as it has begun is its own way back.
    held = { picture, drawing, still, moving, poses, returns: all.every((moments) => moments[0] === moments.at(-1)) };
  }

  /** Where the movement is in a step. */
  function place(step, into) {
    const { returns } = held;
    const turn = returns ? 0.5 : 1;
    const round = (share) => (returns ? share : 1 - Math.abs(2 * share - 1));
    const along = into / step.length;
    if (step.phase === "go") return round(along);
    if (step.phase === "time" || step.phase === "ready") return round((into % STROLL) / STROLL);
    if (step.phase === "out") return round(along / 2);
    if (step.phase === "back") return round(0.5 + along / 2);
    if (step.phase !== "hold") return 0;
    if (!step.whole) return turn;
    const way = Math.min(WAY, step.length / 4);
    const left = step.length - into;
    return round(into < way ? into / way / 2 : left < way ? 1 - left / way / 2 : 0.5);
  }

  /** The pose that is nearest to a place of the movement. */
  const poseAt = (share) => held.poses.reduce((near, pose) => (Math.abs(pose - share) < Math.abs(near - share) ? pose : near));

  return {
    hold,
    release,
    /** True while there is something to show in every frame. */
    moves: () => held !== null && !calm.matches,
    /** Shows the figure as it is in a step, so far into it; without one it is the still picture. */
    show(step, into) {
      if (held === null) return;
      held.picture.classList.toggle("moving", step !== null);
      if (step === null) return;
      const share = place(step, into);
      const wanted = calm.matches ? poseAt(share) : share;
      if (held.drawing.getCurrentTime() !== wanted) held.drawing.setCurrentTime(wanted);
    },
  };
})();
