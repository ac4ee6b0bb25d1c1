// Shows what belongs to the reader's own day: the week that she is in. Without it the page shows that of the day on
// which it was made, and says its date.
{
  const two = (number) => String(number).padStart(2, "0");

  /** Puts the pictures into a part of the page that waited: they stand once for all of them. */
  const draw = (part) => {
    const pictures = document.getElementById("page.pictures")?.content;
    for (const place of part.querySelectorAll("[data-picture]")) {
      const picture = pictures?.getElementById(`page.picture.${place.dataset.picture}`)?.firstElementChild;
      if (picture) place.replaceChildren(picture.cloneNode(true));
    }
  };

  const show = () => {
    const now = new Date();
    const today = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
    for (const part of document.querySelectorAll("[data-now]")) {
      const { now: from, until } = part.dataset;
      const here = from <= today && (until === "" || today < until);
      const tag = part.querySelector(":scope > th > .tag");
      if (tag) {
        part.classList.toggle("now", here);
        tag.hidden = !here;
        continue;
      }
      const waiting = here && part.querySelector(":scope > template");
      if (waiting) {
        draw(waiting.content);
        waiting.replaceWith(waiting.content);
      }
      part.hidden = !here;
    }
  };

  show();
  // A page can stay open over midnight.
  document.addEventListener("visibilitychange", show);
}
