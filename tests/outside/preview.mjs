// A preview or a desk that runs, for as long as a check needs it.

import { spawn } from "node:child_process";
import { createInterface } from "node:readline";

/** Starts a preview of a workspace. Answers `{ address, process, lines, stop }`; `lines` grows with what it says. */
export function preview(steadyleaf, workspace, today) {
  return started(steadyleaf, ["proof", "--workspace", workspace, "--today", today]);
}

/** Starts what listens and says where, with the same answer. */
export async function started(steadyleaf, args) {
  const process = spawn(steadyleaf, args, { stdio: ["ignore", "pipe", "inherit"] });
  const lines = [];
  const says = createInterface({ input: process.stdout });
  const first = new Promise((done, fail) => {
    says.on("line", (line) => {
      lines.push(line);
      const address = line.match(/http:\/\/127\.0\.0\.1:\d+\/[-\w/]*/);
      if (address) done(address[0]);
    });
    process.on("exit", (code) => fail(new Error(`it ended with ${code}`)));
  });
  const stop = () =>
    new Promise((done) => {
      process.on("exit", done);
      process.kill("SIGINT");
    });
  return { address: await first, process, lines, stop };
}
