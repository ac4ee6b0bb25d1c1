// What a client has done, kept in the browser's own database on her device alone: `window.days`. Nothing is sent anywhere.
//
// An entry: { id, exercise, title, series, week, form, on, sets, effort, felt, trouble, how, changes }, as the schema of a
// practice file has it. A promise that fails does so with an error whose `kind` says why: "missing" (the browser keeps
// nothing here, as in a private window), "newer" (a newer version of these pages has been here), "blocked" (another window
// of the site has to be closed first), "full" (no room), "gone" (no such entry), "wrong" (not an entry), "broken" (the rest).
window.days = (() => {
  // All pages of a site share one. A page of one person has its own, so that her days never mix with anybody's.
  const NAME = ["steadyleaf days", document.documentElement.dataset.days].filter(Boolean).join(" ");
  const VERSION = 1;
  const KINDS = {
    VersionError: "newer",
    QuotaExceededError: "full",
    SecurityError: "missing",
    InvalidStateError: "missing",
    NotSupportedError: "missing",
  };

  const channel = "BroadcastChannel" in window ? new BroadcastChannel(NAME) : null;
  let opened = null;

  function failure(kind, cause) {
    return Object.assign(new Error(`days: ${kind}`, { cause }), { kind });
  }

  function told(error) {
    return error?.kind ? error : failure(KINDS[error?.name] ?? "broken", error);
  }

  function open() {
    opened ??= new Promise((done, fail) => {
      if (!window.indexedDB) throw failure("missing");
      const request = indexedDB.open(NAME, VERSION);
      request.onupgradeneeded = () => request.result.createObjectStore("days", { keyPath: "id" });
      request.onblocked = () => fail(failure("blocked"));
      request.onerror = () => fail(request.error);
      request.onsuccess = () => {
        const database = request.result;
        const forget = () => {
          opened = null;
        };
        database.onversionchange = () => {
          // A newer version of the pages must not wait for this one.
          database.close();
          forget();
        };
        database.onclose = forget;
        done(database);
      };
    }).catch((error) => {
      opened = null;
      throw told(error);
    });
    return opened;
  }

  /** Does `ask(store)` in one transaction: all of it or nothing. Answers what the returned function says at its end. */
  async function work(mode, ask) {
    const begin = async () => (await open()).transaction("days", mode, { durability: "strict" });
    const transaction = await begin().catch((error) => {
      // The connection may have been closed behind our back: once more.
      if (error?.name !== "InvalidStateError") throw told(error);
      opened = null;
      return begin();
    });
    return new Promise((done, fail) => {
      let answer = () => undefined;
      transaction.oncomplete = () => done(answer());
      transaction.onabort = () => fail(told(transaction.error));
      try {
        answer = ask(transaction.objectStore("days")) ?? answer;
      } catch (error) {
        transaction.abort();
        fail(told(error));
      }
    });
  }

  /** The same for what changes the store; notes how many there are then, and tells the other windows. */
  async function write(ask, what = "changed") {
    const answer = await work("readwrite", ask);
    const count = await work("readonly", (store) => {
      const request = store.count();
      return () => request.result;
    }).catch(() => null);
    if (count !== null) note(count);
    channel?.postMessage(what);
    return answer;
  }

  // How many there were, kept apart from the database: a browser may clear one and leave the other.
  function note(count) {
    try {
      localStorage.setItem(NAME, String(count));
    } catch {
      // Then a cleared database cannot be told from a new one.
    }
  }

  function noted() {
    try {
      return Number(localStorage.getItem(NAME)) || 0;
    } catch {
      return 0;
    }
  }

  const isText = (value, most) =>
    typeof value === "string" &&
    [...value].length <= most &&
    !/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]/.test(value) &&
    /[^\s\u0085\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\ufeff]/.test(value);
  const isWhole = (value, from, to) => Number.isInteger(value) && value >= from && value <= to;

  /** True for a day of the calendar such as "2027-02-15". */
  function isDay(value) {
    if (typeof value !== "string" || !/^(19|20|21)\d{2}-\d{2}-\d{2}$/.test(value)) return false;
    const date = new Date(`${value}T00:00:00Z`);
    return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(value);
  }

  const orNone = (check) => (value) => value === null || check(value);
  const FIELDS = {
    id: (value) => isText(value, 100),
    exercise: (value) => isText(value, 100),
    title: (value) => isText(value, 200),
    series: orNone((value) => isText(value, 100)),
    week: orNone((value) => isWhole(value, 1, 520)),
    form: orNone((value) => isText(value, 200)),
    on: isDay,
    sets: orNone((value) => isWhole(value, 1, 50)),
    effort: orNone((value) => isWhole(value, 0, 10)),
    felt: orNone((value) => isText(value, 1000)),
    trouble: orNone((value) => ["fall", "pain", "other"].includes(value)),
    how: (value) => ["practice", "ticked"].includes(value),
    changes: (value) => isWhole(value, 0, 1_000_000),
  };

  /** An entry with every field, from one that may lack what may be left out; `null` when it is none. */
  function whole(value) {
    if (typeof value !== "object" || value === null || Array.isArray(value)) return null;
    if (Object.keys(value).some((name) => !(name in FIELDS))) return null;
    const entry = { changes: 0 };
    for (const name of Object.keys(FIELDS)) entry[name] = value[name] ?? (name === "changes" ? 0 : null);
    return Object.entries(FIELDS).every(([name, check]) => check(entry[name])) ? entry : null;
  }

  /** Today where she is. */
  function today() {
    const now = new Date();
    const two = (number) => String(number).padStart(2, "0");
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  }

  /** A name that no other entry has, on this device or another. */
  function fresh() {
    const bytes = crypto.getRandomValues(new Uint8Array(12));
    return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  /** Words as they may be kept: without what no page can show; `null` for none. */
  function words(text, most) {
    if (typeof text !== "string") return text;
    const clean = text.replace(/\r\n?/g, "\n").replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]/g, "");
    const short = [...clean].slice(0, most).join("");
    return isText(short, most) ? short : null;
  }

  function checked(fields) {
    const week = typeof fields.week === "string" ? Number(/\d+$/.exec(fields.week)?.[0] ?? NaN) || null : fields.week;
    const entry = whole({ ...fields, week, felt: words(fields.felt, 1000) });
    if (entry === null) throw failure("wrong");
    return entry;
  }

  const sameAs = (a, b) => Object.keys(FIELDS).every((name) => a[name] === b[name]);

  return {
    today,
    whole,

    /** Calls `then` whenever another window has changed something, with "changed" or "erased". */
    watch(then) {
      channel?.addEventListener("message", (event) => then(event.data));
    },

    /** Every entry, by day. */
    async all() {
      const found = await work("readonly", (store) => {
        const request = store.getAll();
        return () => request.result;
      });
      return found.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : a.id < b.id ? -1 : 1));
    },

    /** Keeps an entry and answers it. One without an `id` gets one, one without a day is of today; one that is there stays. */
    async add(fields) {
      const entry = checked({ ...fields, id: fields.id ?? fresh(), on: fields.on ?? today() });
      return write((store) => {
        let kept = entry;
        const there = store.get(entry.id);
        there.onsuccess = () => {
          if (there.result) kept = there.result;
          else store.add(entry);
        };
        return () => kept;
      });
    },

    /** Changes some fields of an entry and answers it. */
    async change(id, fields) {
      return write((store) => {
        let kept = null;
        let wrong = null;
        const there = store.get(id);
        there.onsuccess = () => {
          try {
            if (!there.result) throw failure("gone");
            kept = checked({ ...there.result, ...fields, id, changes: there.result.changes + 1 });
            store.put(kept);
          } catch (error) {
            wrong = error;
          }
        };
        return () => {
          if (wrong) return Promise.reject(wrong);
          return kept;
        };
      });
    },

    /** Takes entries away. */
    async remove(...ids) {
      await write((store) => {
        for (const id of ids) store.delete(id);
      });
    },

    /**
     * Adds the entries of a file, all of them or none. What is there already stays, unless the file's has been changed
     * more often. Answers how many were `added`, were the `same`, were `renewed`, and were `kept` though the file's differ.
     */
    async merge(entries) {
      return write((store) => {
        const count = { added: 0, same: 0, renewed: 0, kept: 0 };
        for (const entry of entries) {
          const there = store.get(entry.id);
          there.onsuccess = () => {
            const mine = there.result;
            if (!mine) count.added += 1;
            else if (sameAs(mine, entry)) count.same += 1;
            else if (mine.changes >= entry.changes) count.kept += 1;
            else count.renewed += 1;
            if (!mine || mine.changes < entry.changes) store.put(entry);
          };
        }
        return () => count;
      });
    },

    /** Takes everything away. */
    async erase() {
      await write((store) => void store.clear(), "erased");
    },

    /** How many entries there were when nobody has taken them away and yet they are gone; else 0. */
    async cleared() {
      const before = noted();
      return before > 0 && (await this.all()).length === 0 ? before : 0;
    },

    /** The reader knows that they are gone. */
    known() {
      note(0);
    },
  };
})();
