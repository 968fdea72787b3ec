/** The thread in which calls of the program are answered after one another: what each would write and read is its own. */
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { type MessagePort, workerData } from "node:worker_threads";
import { answer } from "../../src/cli/answer.ts";

export interface Asked {
  readonly args: readonly string[];
  /** Standard input. */
  readonly input: string | Uint8Array;
}

export interface Given {
  readonly stdout: string;
  readonly stderr: string;
  readonly status: number;
}

const { count, port } = workerData as { count: Int32Array; port: MessagePort };

let input = Buffer.alloc(0);
const { readFileSync } = fs;
fs.readFileSync = ((file: fs.PathOrFileDescriptor, options?: any) => {
  if (file !== 0) return readFileSync(file, options);
  const encoding = typeof options === "string" ? options : options?.encoding;
  return encoding ? input.toString(encoding) : input;
}) as typeof readFileSync;
syncBuiltinESMExports();

const written = { stdout: [] as Buffer[], stderr: [] as Buffer[] };
for (const name of ["stdout", "stderr"] as const)
  process[name].write = (piece: string | Uint8Array) => {
    written[name].push(Buffer.from(piece as Uint8Array));
    return true;
  };
const taken = (name: keyof typeof written): string => Buffer.concat(written[name].splice(0)).toString("utf8");

port.on("message", async (asked: Asked) => {
  input = Buffer.from(asked.input as Uint8Array);
  process.exitCode = undefined;
  let status = 1;
  try {
    status = await answer(asked.args);
  } catch (error) {
    // a bug: as Node would tell it
    process.stderr.write(`${(error as Error).stack}\n`);
  }
  process.removeAllListeners("SIGINT");
  const given: Given = { stdout: taken("stdout"), stderr: taken("stderr"), status };
  port.postMessage(given);
  Atomics.add(count, 0, 1);
  Atomics.notify(count, 0);
});
