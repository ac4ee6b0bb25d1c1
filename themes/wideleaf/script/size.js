// The size of the letters that the reader has chosen on this device. It stands in the head of a page, so that nothing
// moves. Without it, or where nothing may be kept, the letters have the size that the browser asks for.
{
  const NAME = "steadyleaf letters";
  const SIZES = { 1: "", 2: "156.25%", 3: "200%" };

  const kept = () => {
    try {
      return localStorage.getItem(NAME) ?? "1";
    } catch {
      return "1";
    }
  };
  let size = kept();
  const set = () => (document.documentElement.style.fontSize = SIZES[size] ?? "");

  set();
  document.addEventListener("DOMContentLoaded", () => {
    const group = document.getElementById("page.sizes");
    if (!group) return;
    const buttons = group.querySelectorAll("button[data-size]");
    const tell = () => buttons.forEach((one) => one.setAttribute("aria-pressed", String(one.dataset.size === size)));
    for (const button of buttons) {
      button.addEventListener("click", () => {
        size = button.dataset.size;
        try {
          localStorage.setItem(NAME, size);
        } catch {
          // It holds for this page.
        }
        set();
        tell();
      });
    }
    tell();
    group.hidden = false;
  });
  // A preview that brings a page up to date knows nothing of it.
  document.addEventListener("proof:renewed", set);
}
