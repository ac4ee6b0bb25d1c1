// The chart of "My days": for each week since the first that she did something in, days done of days asked, in numbers and as a bar.
// `window.daysChart(place, { entries, series, today, open })` draws it; `open` is called with the first day of a week.
window.daysChart = (() => {
  const { say, weekOf, day } = window.daysWeek;
  const SVG = "http://www.w3.org/2000/svg";

  function line({ start, end, title, short, asks }, entries) {
    const asked = new Map(asks.filter((ask) => ask[2]).map(([id, , days]) => [id, days]));
    const within = entries.filter((entry) => entry.on >= start && entry.on <= end);
    // An exercise counts once a day, however often it was done.
    const done = new Map(within.map((entry) => [`${entry.on} ${entry.exercise}`, asked.has(entry.exercise)]));
    const counted = [...done.values()].filter(Boolean).length;
    const sum = (at) => [...asked.values()].reduce((all, days) => all + days[at], 0);
    return { start, name: short || title || day(start), done: counted, extra: done.size - counted, low: sum(0), high: sum(1) };
  }

  function bar(done, asked, most) {
    const svg = document.createElementNS(SVG, "svg");
    svg.setAttribute("viewBox", "0 0 100 12");
    svg.setAttribute("preserveAspectRatio", "none");
    svg.setAttribute("aria-hidden", "true");
    for (const [kind, value] of [["done", done], ["asked", asked]]) {
      const rect = document.createElementNS(SVG, "rect");
      rect.setAttribute("class", kind);
      rect.setAttribute("vector-effect", "non-scaling-stroke");
      for (const [name, number] of [["x", 0.5], ["y", 1], ["height", 10], ["width", (99 * value) / most]]) rect.setAttribute(name, number);
      svg.append(rect);
    }
    return svg;
  }

  function drawn({ start, name, done, extra, low, high }, most, open) {
    const item = document.createElement("li");
    const week = document.createElement("button");
    week.type = "button";
    week.className = "chart-week";
    week.textContent = name;
    week.setAttribute("aria-label", say("open", { week: name }));
    week.addEventListener("click", () => open(start));
    const text = document.createElement("span");
    text.className = "chart-says";
    const asked = low === high ? String(low) : say("range", { low, high });
    const parts = [high > 0 ? say("of", { n: done, asked }) : String(done), extra > 0 && say("extra", { n: extra })];
    text.textContent = parts.filter(Boolean).join(" ");
    item.append(week, text, bar(done, high, most));
    return item;
  }

  return (place, { entries, series, today, open }) => {
    const starts = new Set(entries.map((entry) => weekOf(series, entry.on).start));
    const first = [...starts].sort()[0];
    // Weeks before she began are not hers.
    for (const week of series?.weeks ?? []) if (week.on <= today && week.on > first) starts.add(week.on);
    const lines = [...starts].sort().map((start) => line(weekOf(series, start), entries));
    const most = Math.max(1, ...lines.map(({ done, high }) => Math.max(done, high)));
    const focused = [...place.querySelectorAll("button")].indexOf(document.activeElement);
    place.replaceChildren(...lines.map((one) => drawn(one, most, open)));
    if (focused >= 0) place.querySelectorAll("button")[focused]?.focus();
    return lines.length;
  };
})();
