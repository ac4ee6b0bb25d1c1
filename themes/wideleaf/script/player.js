// The player of a week's own video: it shows itself and starts when the reader asks, and jumps to the parts
// of the video. Without it the player stands below the poster, and the links open the video at their moment.

const player = document.getElementById("page.player");
const play = document.getElementById("page.play");
const poster = play.closest(".poster");

function start(seconds) {
  poster.hidden = true;
  player.hidden = false;
  const go = () => {
    if (seconds !== undefined) player.currentTime = seconds;
    player.play().catch(() => {});
  };
  // A moment can be set once the length is known.
  if (player.readyState > 0) go();
  else {
    player.addEventListener("loadedmetadata", go, { once: true });
    player.load();
  }
  player.focus();
}

player.hidden = true;
play.hidden = false;
play.addEventListener("click", () => start());

for (const link of document.querySelectorAll("a[data-seconds]")) {
  link.addEventListener("click", (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    start(Number(link.dataset.seconds));
    document.getElementById("page.video").scrollIntoView({ block: "start" });
  });
}
