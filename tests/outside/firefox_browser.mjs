// Debian's Firefox, without a window, spoken to by the open protocol WebDriver BiDi (W3C Working Draft).

import { spawn } from "node:child_process";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** How long the browser may take to start, and to answer a command, in milliseconds. */
const PATIENCE = 60_000;

// No calls of its own.
const PREFERENCES = {
  "app.update.enabled": false,
  "browser.safebrowsing.downloads.remote.enabled": false,
  "browser.safebrowsing.malware.enabled": false,
  "browser.safebrowsing.phishing.enabled": false,
  "browser.shell.checkDefaultBrowser": false,
  "datareporting.policy.dataSubmissionEnabled": false,
  "network.captive-portal-service.enabled": false,
  "network.connectivity-service.enabled": false,
  "toolkit.telemetry.reportingpolicy.firstRun": false,
};

/** Starts the browser. Answers `{ page, close }`; `page()` opens a window. */
export async function launchFirefox(env = {}) {
  const profile = await mkdtemp(join(tmpdir(), "steadyleaf-firefox-"));
  const lines = Object.entries(PREFERENCES).map(([name, value]) => `user_pref("${name}", ${value});\n`);
  await writeFile(join(profile, "user.js"), lines.join(""));
  const program = process.env.FIREFOX ?? "firefox-esr";
  const flags = ["--headless", "--no-remote", "--profile", profile, "--remote-debugging-port", "0"];
  const child = spawn(program, flags, { stdio: ["ignore", "ignore", "pipe"], env: { ...process.env, ...env } });
  const ended = new Promise((done) => child.once("exit", done));
  const address = await new Promise((found, failed) => {
    let told = "";
    const timer = setTimeout(() => failed(new Error(`${program} does not start: ${told}`)), PATIENCE);
    child.once("error", failed);
    child.stderr.on("data", (bytes) => {
      told += bytes;
      const [, url] = /WebDriver BiDi listening on (ws:\S+)/.exec(told) ?? [];
      if (url) found(url);
      if (url) clearTimeout(timer);
    });
  });
  const socket = new WebSocket(`${address}/session`);
  await new Promise((done, failed) => {
    socket.addEventListener("open", done, { once: true });
    socket.addEventListener("error", () => failed(new Error(`no answer at ${address}`)), { once: true });
  });
  const waiting = new Map();
  const listeners = [];
  let last = 0;
  socket.addEventListener("message", ({ data }) => {
    const message = JSON.parse(data);
    if (message.type === "event") return listeners.forEach((listener) => listener(message));
    const { done, failed } = waiting.get(message.id) ?? {};
    waiting.delete(message.id);
    if (message.type === "success") done?.(message.result);
    else failed?.(new Error(`${message.error}: ${message.message}`));
  });
  const ask = (method, params = {}) => new Promise((done, failed) => {
    const id = (last += 1);
    waiting.set(id, { done, failed });
    setTimeout(() => waiting.delete(id) && failed(new Error(`${method} takes too long`)), PATIENCE).unref();
    socket.send(JSON.stringify({ id, method, params }));
  });
  await ask("session.new", { capabilities: {} });
  await ask("session.subscribe", { events: ["log.entryAdded", "network.beforeRequestSent"] });
  return {
    page: (options) => page(ask, listeners, options),
    async close() {
      await ask("browser.close").catch(() => {});
      socket.close();
      setTimeout(() => child.kill(), 5000).unref();
      await ended;
      await rm(profile, { recursive: true, force: true });
    },
  };
}

/** A window: `scripts` run in each of its pages before their own. */
async function page(ask, listeners, { width, height, scripts = [], error = () => {}, request = () => {} }) {
  const { context } = await ask("browsingContext.create", { type: "tab" });
  listeners.push(({ method, params }) => {
    if (method === "log.entryAdded" && params.level === "error" && params.source.context === context) error(params.text);
    if (method === "network.beforeRequestSent" && params.context === context) request(params.request.url);
  });
  await ask("browsingContext.setViewport", { context, viewport: { width, height } });
  for (const script of scripts) {
    await ask("script.addPreloadScript", { functionDeclaration: script, contexts: [context] });
  }
  /** What a function answers in the page; its argument and its answer are what JSON can say. */
  const evaluate = async (work, argument = null) => {
    const { type, result, exceptionDetails } = await ask("script.callFunction", {
      functionDeclaration: `async () => JSON.stringify((await (${work})(${JSON.stringify(argument)})) ?? null)`,
      target: { context },
      awaitPromise: true,
      userActivation: false,
    });
    if (type === "exception") throw new Error(exceptionDetails.text);
    return JSON.parse(result.value);
  };
  const element = async (selector) => {
    const { nodes } = await ask("browsingContext.locateNodes", { context, locator: { type: "css", value: selector } });
    if (nodes.length !== 1) throw new Error(`${nodes.length} of ${selector}`);
    return { sharedId: nodes[0].sharedId };
  };
  return {
    evaluate,
    goto: (url) => ask("browsingContext.navigate", { context, url, wait: "complete" }),
    /** Presses what is there, as a finger does. */
    async press(selector) {
      await evaluate((one) => document.querySelector(one).scrollIntoView({ block: "center", behavior: "instant" }), selector);
      const origin = { type: "element", element: await element(selector) };
      const actions = [
        { type: "pointerMove", x: 0, y: 0, origin },
        { type: "pointerDown", button: 0 },
        { type: "pointerUp", button: 0 },
      ];
      await ask("input.performActions", { context, actions: [{ type: "pointer", id: "finger", actions }] });
    },
    close: () => ask("browsingContext.close", { context }),
  };
}
