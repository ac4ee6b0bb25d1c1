// What is counted in a form: its parts as steps of a clock, and what is said and shown of each. Nothing here looks at the
// page or the time.

window.practice = window.practice ?? {};

window.practice.steps = (() => {
  /** Seconds before the end of a wait that are counted aloud. */
  const LAST = [3, 2, 1];
  /** A hold is counted down from this length on. */
  const LONG_HOLD = 10_000;
  /** From this length on a rest between two repetitions is said, and the seconds of a hold are shown. */
  const NOTED = 5000;
  /** Shorter than this is no time for a number and a word. */
  const SHORT = 800;

  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);

  /** The steps of `parts`, which are as the page carries them, with a line of words for each part. */
  function of(parts, lines) {
    const sets = 1 + parts.filter(([kind]) => kind === "rest").length;
    const sided = parts.some(([kind]) => kind === "change");
    const steps = [];
    let [set, side] = [1, 0];
    parts.forEach(([kind, ...rest], part) => {
      if (kind === "rest") [set, side] = [set + 1, 0];
      if (kind === "change") side = 1;
      const works = kind === "time" || kind === "reps";
      const own = { part, line: lines[part], set, sets, side: sided && works ? side : null, works };
      if (kind === "reps") steps.push(...repeated(own, rest));
      else steps.push({ ...own, phase: kind, length: rest[0] });
    });
    return steps;
  }

  function repeated(own, [count, work, hold, pause, alternating]) {
    const steps = [];
    const each = work / count;
    const way = (each - hold) / 2;
    for (let rep = 1; rep <= count; rep += 1) {
      const one = { ...own, rep, count, side: alternating ? (rep - 1) % 2 : own.side };
      if (hold >= each) steps.push({ ...one, phase: "hold", length: each, whole: true });
      else if (hold > 0) {
        steps.push({ ...one, phase: "out", length: way, scaled: true });
        steps.push({ ...one, phase: "hold", length: hold, hasty: way < SHORT });
        steps.push({ ...one, phase: "back", length: way, scaled: true });
      } else steps.push({ ...one, phase: "go", length: each, scaled: true });
      if (pause > 0 && rep < count) steps.push({ ...one, phase: "pause", length: pause });
    }
    return steps;
  }

  /** What is said when a step begins; nothing where there is no time for it. */
  function saidAt(step, title, words) {
    switch (step.phase) {
      case "ready":
        return fill(words.ready, { title, part: step.line });
      case "rest":
        return `${step.line}. ${fill(words.next_set, { n: step.set, m: step.sets })}`;
      case "change":
      case "time":
        return step.line;
      case "pause":
        return step.length >= NOTED ? words.do_rest : null;
      case "out":
        return step.length < SHORT ? fill(words.hold_number, { n: step.rep }) : String(step.rep);
      case "go":
        return String(step.rep);
      case "hold":
        if (step.whole) return step.count === 1 ? step.line : fill(words.hold_number, { n: step.rep });
        return step.hasty ? null : words.hold;
      default:
        return step.length < SHORT ? null : words.back;
    }
  }

  /** The second that is counted aloud when a step goes on from one place to the next; nothing at most places. */
  function secondIn(step, from, to) {
    const waits = step.phase === "hold"
      ? step.length >= LONG_HOLD
      : !["go", "out", "back"].includes(step.phase) && step.length > (LAST[0] + 1) * 1000;
    const [before, after] = [step.length - from, step.length - to].map((left) => left / 1000);
    return waits ? LAST.find((second) => before > second && after <= second && after > second - 1) : undefined;
  }

  /** Where "I am ready" leads: just before the last seconds. */
  const almost = (step) => Math.max(step.length - LAST[0] * 1000 - 1, 0);

  /** The large number with what it counts: repetitions, or seconds that are left. */
  function numberOf(step, into, words) {
    const long = step.whole && (step.count === 1 || step.length >= LONG_HOLD);
    if (step.rep !== undefined && step.phase !== "pause" && !long) {
      return [String(step.rep), fill(words.of_reps, { n: step.count })];
    }
    const seconds = Math.ceil((step.length - into) / 1000);
    if (seconds <= 120) return [String(seconds), words.seconds];
    return [`${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`, ""];
  }

  /** What she does now, with the seconds of a hold where the large number does not show them. */
  function doingOf(step, into, words) {
    const names = { out: "go", pause: "rest" };
    const doing = words[`do_${names[step.phase] ?? step.phase}`];
    if (step.phase !== "hold" || step.length < NOTED) return doing;
    const seconds = String(Math.ceil((step.length - into) / 1000));
    return numberOf(step, into, words)[0] === seconds ? doing : `${doing}: ${seconds}`;
  }

  /** "Set 1 of 2, first side". */
  function setOf(step, words) {
    const set = step.sets > 1 ? fill(words.set, { n: step.set, m: step.sets }) : "";
    const side = [words.side_one, words.side_other][step.side] ?? "";
    return [set, side].filter(Boolean).join(", ");
  }

  return { of, saidAt, secondIn, almost, numberOf, doingOf, setOf, fill };
})();
