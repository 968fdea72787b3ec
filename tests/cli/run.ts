/** The built commands: as a person runs them, and many after one another in a thread that has loaded them and runs warm. */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { MessageChannel, receiveMessageOnPort, Worker } from "node:worker_threads";
import { expect, inject } from "vitest";
import type { Asked, Given } from "./answering.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** In a process of its own, which takes half a second before it begins to work anything out. */
export function annulusAlone(args: readonly string[], input: string | Uint8Array = ""): Given {
  const { stdout, stderr, status } = spawnSync(process.execPath, [inject("annulus"), ...args], {
    cwd: root,
    input,
    encoding: "utf8",
  });
  return { stdout, stderr, status: status! };
}

function startAnswering(): (asked: Asked) => Given {
  const count = new Int32Array(new SharedArrayBuffer(4));
  const { port1, port2 } = new MessageChannel();
  const worker = new Worker(inject("answering"), {
    workerData: { count, port: port2 },
    transferList: [port2],
    execArgv: [],
  });
  worker.unref();
  port1.unref();
  return (asked) => {
    const before = Atomics.load(count, 0);
    port1.postMessage(asked);
    Atomics.wait(count, 0, before);
    return receiveMessageOnPort(port1)!.message;
  };
}

/** One for all files that a worker of the test runner gets. */
let ask: ReturnType<typeof startAnswering> | undefined;

/** What is answered to these words, typed behind the program's name. */
export function annulus(args: readonly string[], input: string | Uint8Array = ""): Given {
  ask ??= startAnswering();
  return ask({ args, input });
}

/** Bad input: exit 1, nothing on standard output, one line on standard error that is no stack trace. */
export function expectRefused({ stdout, stderr, status }: Given, words: RegExp): void {
  expect(stderr).toMatch(words);
  expect(status).toBe(1);
  expect(stdout).toBe("");
  expect(stderr.trimEnd().split("\n").length).toBe(1);
  expect(stderr).not.toMatch(/\bat .*:\d+:\d+|NaN|undefined/);
}
