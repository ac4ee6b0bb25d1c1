// Counts aloud with the browser's own voice, or with tones, and keeps the screen awake.

window.practice = window.practice ?? {};

window.practice.voice = (() => {
  const language = document.documentElement.lang.toLowerCase();
  const speech = "speechSynthesis" in window ? window.speechSynthesis : null;
  let own = null;
  let audio = null;

  /** The voice for the language of the page. A distant service that speaks would learn what she does. */
  function find() {
    const tag = (voice) => voice.lang.replace("_", "-").toLowerCase();
    const base = (name) => name.split("-")[0];
    const near = (speech?.getVoices() ?? []).filter((one) => one.localService && base(tag(one)) === base(language));
    const exact = near.filter((one) => tag(one) === language);
    own = exact.find((one) => one.default) ?? near.find((one) => one.default) ?? exact[0] ?? near[0] ?? null;
  }
  find();

  /** Short tones: one for a number, two for words, a low one for the last seconds. */
  const TONES = { number: [660], word: [520, 780], last: [440] };
  function tone(kind) {
    if (audio?.state !== "running") return;
    TONES[kind].forEach((pitch, index) => {
      const begin = audio.currentTime + index * 0.18;
      const [pipe, gain] = [audio.createOscillator(), audio.createGain()];
      pipe.frequency.value = pitch;
      gain.gain.setValueAtTime(0.0001, begin);
      gain.gain.exponentialRampToValueAtTime(0.3, begin + 0.02);
      gain.gain.exponentialRampToValueAtTime(0.0001, begin + 0.16);
      pipe.connect(gain).connect(audio.destination);
      pipe.start(begin);
      pipe.stop(begin + 0.17);
    });
  }

  function speak(text) {
    // A number that comes late is a wrong number.
    if (speech.speaking || speech.pending) speech.cancel();
    const words = new SpeechSynthesisUtterance(text);
    words.lang = own.lang;
    words.voice = own;
    speech.speak(words);
  }

  let lock = null;
  let refused = false;

  return {
    /** Says a text, or sounds as that kind of it, as she has it switched. */
    say(text, kind, { sound, voice }) {
      if (!sound || text === null) return;
      if (voice && own !== null) speak(text);
      else tone(kind);
    },
    hush: () => speech?.cancel(),
    /** Browsers let a page sound only after she has pressed something on it. */
    tune() {
      try {
        audio ??= new AudioContext();
        if (audio.state === "suspended") audio.resume().catch(() => {});
      } catch {
        audio = null;
      }
    },
    /** True where there is a voice for the language of the page. */
    speaks: () => own !== null,
    /** True where tones can sound. */
    sounds: () => audio !== null,
    /** Keeps the screen awake from now on; `changed` is called once it is known whether it will be. */
    async wake(changed) {
      try {
        lock = await navigator.wakeLock.request("screen");
        refused = false;
        // The device may take it back, as when it saves its battery.
        lock.addEventListener("release", () => {
          refused = lock !== null;
          changed();
        });
      } catch {
        refused = true;
      }
      changed();
    },
    rest() {
      const held = lock;
      lock = null;
      held?.release().catch(() => {});
    },
    /** True where the screen may go dark by itself. */
    dims: () => refused,
    /** Calls back when the device has found its voices. */
    whenFound(work) {
      speech?.addEventListener?.("voiceschanged", () => {
        find();
        work();
      });
    },
  };
})();
