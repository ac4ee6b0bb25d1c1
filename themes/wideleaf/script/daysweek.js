// The words, the days and the weeks of "My days": `window.daysWeek`. Nothing here changes the page.
window.daysWeek = (() => {
  const { exercises, series, words } = JSON.parse(document.getElementById("days.data").textContent);
  const language = document.documentElement.lang;

  /** The words of that id, with `values` in their places. */
  function say(id, values = {}) {
    return (words[id] ?? `[${id}]`).replace(/\{(\w+)\}/g, (all, name) => values[name] ?? all);
  }

  /** The same for a number of things: some languages say one thing otherwise than many. */
  function count(id, n, values = {}) {
    const form = n === 0 && words[`${id}_none`] ? "none" : n === 1 ? "one" : "many";
    return say(`${id}_${form}`, { n, ...values });
  }

  // A day is a text such as "2027-02-15"; its arithmetic knows no hours.
  const utc = (day) => Date.parse(`${day}T00:00:00Z`);
  const plus = (day, n) => new Date(utc(day) + n * 86_400_000).toISOString().slice(0, 10);
  const between = (from, to) => Math.round((utc(to) - utc(from)) / 86_400_000);
  const monday = (day) => plus(day, -((new Date(utc(day)).getUTCDay() + 6) % 7));
  const written = (day, how) => new Intl.DateTimeFormat(language, { ...how, timeZone: "UTC" }).format(utc(day));
  const capital = (text) => text.charAt(0).toLocaleUpperCase(language) + text.slice(1);

  /** The form that is hers, on a page of one person. */
  const formOf = (id) => exercises[id]?.[2] ?? null;
  const titleOf = (id, entry) => exercises[id]?.[0] ?? entry?.title ?? id;

  /** The seven days with this one of a week that goes on until she gets another page, and before it began. */
  function turnOf({ on, number, asks, title, short }, day) {
    const start = plus(on, 7 * Math.floor(between(on, day) / 7));
    return { start, end: plus(start, 6), number, asks, ...(start === on ? { title, short } : { title: "", short: "" }) };
  }

  /** What "effort 5" means. */
  function effort(n) {
    const option = document.getElementById("days.time").content.querySelector(`[name=effort] option[value="${n}"]`);
    return option.textContent.replace(/^\d+: /, "");
  }

  return {
    series,
    language,
    say,
    count,
    plus,
    titleOf,
    dayAndWeekday: (day) => capital(written(day, { weekday: "long", month: "long", day: "numeric" })),
    dayInFull: (day) => capital(written(day, { weekday: "long", year: "numeric", month: "long", day: "numeric" })),
    day: (day) => written(day, { year: "numeric", month: "long", day: "numeric" }),
    /** The titles of an exercise's other ways. */
    forms: (id) => exercises[id]?.[1] ?? [],
    formOf,

    /**
     * The week of a series that a day is in: seven days from the last week that has begun, or fewer before the next.
     * `asks` are its exercises; before the first week there are none, and after the last they stay.
     */
    weekOf(one, day) {
      const weeks = one?.weeks ?? [];
      if (one?.goes_on) return turnOf(weeks[0], day);
      const at = weeks.findLastIndex((week) => week.on <= day);
      const from = weeks[at]?.on ?? weeks[0]?.on ?? monday(day);
      const turns = Math.floor(between(from, day) / 7);
      const start = plus(from, 7 * turns);
      const next = weeks[at + 1]?.on;
      const end = next && next <= plus(start, 6) ? plus(next, -1) : plus(start, 6);
      if (at < 0) return { start, end, number: null, asks: [], title: weeks.length > 0 ? say("before") : "" };
      const { number, asks, title, short } = weeks[at];
      const isAfter = !next && turns > 0;
      return { start, end, number, asks, title: isAfter ? say("after") : title, short: isAfter ? say("after") : short };
    },

    /** What was written of one time, in a few words; her own are not among them. */
    summary(entry) {
      const parts = [
        entry.form !== titleOf(entry.exercise, entry) && entry.form,
        entry.sets !== null && count("sets", entry.sets),
        entry.effort !== null && say("effort", { n: entry.effort, word: effort(entry.effort) }),
        entry.trouble && say(entry.trouble),
      ];
      return parts.filter(Boolean).join(", ");
    },
  };
})();
