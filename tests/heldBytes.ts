/** How much a thread's memory holds that cannot be thrown away, bytes. */
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

setFlagsFromString("--expose-gc");
const collect: () => void = runInNewContext("gc");

export function heldBytes(): number {
  // what the first frees beside the heap is counted by the second
  collect();
  collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}
