// A preview that runs, for as long as a check needs it.

import { spawn } from "node:child_process";
import { createInterface } from "node:readline";

/** Starts a preview of a workspace. Answers `{ address, process, lines, stop }`; `lines` grows with what it says. */
export async function preview(steadyleaf, workspace, today) {
  const process = spawn(steadyleaf, ["proof", "--workspace", workspace, "--today", today], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const lines = [];
  const says = createInterface({ input: process.stdout });
  const first = new Promise((done, fail) => {
    says.on("line", (line) => {
      lines.push(line);
      const address = line.match(/http:\/\/127\.0\.0\.1:\d+\//);
      if (address) done(address[0]);
    });
    process.on("exit", (code) => fail(new Error(`the preview ended with ${code}`)));
  });
  const stop = () =>
    new Promise((done) => {
      process.on("exit", done);
      process.kill("SIGINT");
    });
  return { address: await first, process, lines, stop };
}
