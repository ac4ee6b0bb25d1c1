// The file in which a client saves her days, and what is said of one that is none: `window.daysFile`. Its format has a
// published schema; a change that older pages cannot read needs another version.
window.daysFile = (() => {
  const VERSION = 1;
  // Ten years of ten exercises a day are half of it.
  const MOST_ENTRIES = 100_000;
  const MOST_BYTES = 40_000_000;

  function refused(kind) {
    return Object.assign(new Error(`days file: ${kind}`), { kind });
  }

  function parsed(text) {
    try {
      return JSON.parse(text);
    } catch {
      throw refused(/^\s*\{\s*"steadyleaf"/.test(text) ? "damaged" : "other");
    }
  }

  return {
    /** The text of a file with these entries, one a line. */
    write(entries) {
      const lines = entries.map((entry) => JSON.stringify(entry)).join(",\n");
      return `{"steadyleaf": "practice", "version": ${VERSION}, "days": [\n${lines}\n]}\n`;
    },

    /**
     * The entries of a chosen file. Fails with an error whose `kind` says why it is refused: "large", "other" (another kind
     * of file), "newer" (of a newer version), "damaged".
     */
    async read(file) {
      if (file.size > MOST_BYTES) throw refused("large");
      const text = await file.text().catch(() => {
        throw refused("damaged");
      });
      const whole = parsed(text.replace(/^\ufeff/, ""));
      if (typeof whole !== "object" || whole?.steadyleaf !== "practice") throw refused("other");
      if (Number.isInteger(whole.version) && whole.version > VERSION) throw refused("newer");
      const { version, days: entries } = whole;
      if (version !== VERSION || !Array.isArray(entries) || Object.keys(whole).length !== 3) throw refused("damaged");
      if (entries.length > MOST_ENTRIES) throw refused("large");
      const found = entries.map((entry) => window.days.whole(entry));
      const names = new Set(found.map((entry) => entry?.id));
      if (found.includes(null) || names.size !== found.length) throw refused("damaged");
      return found;
    },
  };
})();
