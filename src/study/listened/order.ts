/**
 * Which gap is to be listened to next, so that tiring and warming up favour none: each as often as the others, there and back
 * again (A B C, C B A, A B C …).
 */
import { isSameGap } from "../../setup/setup.ts";

/** @param gapsMm of the takes so far, in the order in which they were played. Null where there are not yet two gaps. */
export function nextGapMm(gapsMm: readonly number[]): number | null {
  const counts: { gapMm: number; count: number }[] = [];
  for (const gapMm of gapsMm) {
    const known = counts.find((one) => isSameGap(one.gapMm, gapMm));
    if (known) known.count++;
    else counts.push({ gapMm, count: 1 });
  }
  if (counts.length < 2) return null;
  const fewest = Math.min(...counts.map(({ count }) => count));
  const due = counts.filter(({ count }) => count === fewest);
  return (fewest % 2 === 0 ? due[0] : due[due.length - 1]).gapMm;
}
