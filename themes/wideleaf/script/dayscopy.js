// Copies of "My days": a file and back, paper, and a text for her own mail program. What is copied is what the page shows.
(() => {
  const { daysFile, daysWeek, days, myDays } = window;
  const { say, count, day, dayInFull, titleOf, summary } = daysWeek;
  const element = (id) => document.getElementById(`days.${id}`);
  // Some mail programs take no more than about 2,000 letters of an address (common practice, no source).
  const LONGEST_ADDRESS = 1900;

  const quoted = (entry) => entry.felt && `“${entry.felt}”`;

  // A file.

  element("save").addEventListener("click", () => {
    const all = myDays.entries();
    if (all.length === 0) return myDays.message(say("save_none"), [], "file-told");
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([daysFile.write(all)], { type: "application/json" }));
    link.download = `my-days-${days.today()}.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    myDays.message(count("saved", all.length, { file: link.download }), [], "file-told");
  });

  element("file").addEventListener("change", async () => {
    const input = element("file");
    const [file] = input.files;
    if (!file) return;
    try {
      const counts = await myDays.bring(await daysFile.read(file));
      const parts = [say("brought", counts)];
      for (const kind of ["renewed", "kept"]) if (counts[kind] > 0) parts.push(say(`brought_${kind}`, { n: counts[kind] }));
      myDays.message(parts.join(" "), [], "file-told");
    } catch (error) {
      myDays.message(say(`refused_${error.kind ?? "damaged"}`), [], "file-told");
    }
    input.value = "";
  });

  // Paper: everything as a table, which is there only while it is printed.

  function table() {
    const made = document.createElement("table");
    const cells = (part, kind, texts) => {
      const row = part.insertRow();
      for (const text of texts) row.appendChild(document.createElement(kind)).textContent = text;
    };
    cells(made.createTHead(), "th", [say("col_day"), say("col_exercise"), say("col_went")]);
    const body = made.createTBody();
    for (const entry of myDays.entries()) {
      const went = [summary(entry), quoted(entry)].filter(Boolean).join(". ");
      cells(body, "td", [day(entry.on), titleOf(entry.exercise, entry), went]);
    }
    return made;
  }
  window.addEventListener("beforeprint", () => element("paper").replaceChildren(...(myDays.entries().length > 0 ? [table()] : [])));
  window.addEventListener("afterprint", () => element("paper").replaceChildren());
  element("print").addEventListener("click", () => window.print());

  // A text.

  function text(subject, some) {
    const lines = [subject];
    let last = "";
    for (const entry of some) {
      if (entry.on !== last) lines.push("", dayInFull(entry.on));
      last = entry.on;
      lines.push(`- ${[titleOf(entry.exercise, entry), summary(entry)].filter(Boolean).join(": ")}`);
      if (entry.felt) lines.push(`  ${quoted(entry).replace(/\n/g, "\n  ")}`);
    }
    if (some.length === 0) lines.push("", say("nothing"));
    return lines.join("\n");
  }

  function refresh() {
    const { start, end } = myDays.shown();
    const all = element("much").value === "all";
    const some = myDays.entries().filter((entry) => all || (entry.on >= start && entry.on <= end));
    const week = [element("week").textContent, element("span").textContent].filter(Boolean).join(", ");
    const subject = say("subject", { what: all ? say("all") : week });
    const said = text(subject, some);
    const address = (body) => {
      const parts = [`subject=${encodeURIComponent(subject)}`, `body=${encodeURIComponent(body.replace(/\n/g, "\r\n"))}`];
      return `mailto:${element("mail").dataset.to}?${parts.join("&")}`;
    };
    const isLong = address(said).length > LONGEST_ADDRESS;
    element("text").value = said;
    element("mail").href = address(isLong ? say("long_body") : said);
    myDays.message(isLong ? say("long_mail") : "", [], "send-told");
  }
  myDays.refreshed(refresh);
  element("much").addEventListener("change", refresh);

  element("copy").addEventListener("click", async () => {
    const area = element("text");
    let copied = true;
    try {
      await navigator.clipboard.writeText(area.value);
    } catch {
      // Older browsers, and pages from a disk.
      area.select();
      copied = document.execCommand("copy");
    }
    myDays.message(say(copied ? "copied" : "not_copied"), [], "send-told");
  });
})();
