/** From navigation to the first drawn curve and to what is said of it, and what had to be fetched before it. */
import { gzipSync } from "node:zlib";
import type { Page } from "playwright-core";
import type { Row } from "./bench.ts";
import { AT, type PageBench } from "./chromium.ts";

const VISITS = 3;
const SLOWDOWN = 6;

const rows = (
  [curve, sentence, slowed]: readonly (number | null)[],
  weight: number | null,
): readonly Row[] => [
  { name: "page: navigation to the first drawn curve", value: curve, goal: 800, unit: "ms", better: "less" },
  { name: "page: navigation to its sentence", value: sentence, goal: 800, unit: "ms", better: "less" },
  {
    name: `page: navigation to both, processor ${SLOWDOWN} times slower`,
    value: slowed,
    goal: 4000,
    unit: "ms",
    better: "less",
  },
  {
    name: "page: weight before the first curve, compressed",
    value: weight,
    goal: 160,
    unit: "kB",
    better: "less",
  },
];

export const ABSENT_FIRST_CURVE = rows([null, null, null], null);

const seen = (page: Page) =>
  page.evaluate(async (at) => {
    const { find, when } = window.bench;
    const said = () => /the gap by|gap compared with/.test(find(at.sentence)?.textContent ?? "");
    const [curve, sentence] = await Promise.all([when(() => find(at.curve)), when(said)]);
    return { curve, sentence };
  }, AT);

export async function firstCurveRows({ visit }: PageBench): Promise<readonly Row[]> {
  const curves: number[] = [];
  const sentences: number[] = [];
  let weight = 0;
  for (let i = 0; i < VISITS; i++) {
    const fetched: Promise<number>[] = [];
    let isCounting = true;
    const page = await visit({
      before: (context) =>
        context.on("response", (response) => {
          if (!isCounting || response.request().serviceWorker()) return;
          // woff2 is compressed already and hardly changes
          fetched.push(
            response.body().then(
              (body) => gzipSync(body).length,
              () => 0,
            ),
          );
        }),
    });
    const both = seen(page);
    await page.evaluate((at) => window.bench.when(() => window.bench.find(at)), AT.curve);
    isCounting = false;
    const { curve, sentence } = await both;
    curves.push(curve);
    sentences.push(sentence);
    weight = (await Promise.all(fetched)).reduce((sum, bytes) => sum + bytes, 0) / 1000;
    await page.context().close();
  }
  const slowed: number[] = [];
  for (let i = 0; i < VISITS; i++) {
    const page = await visit({ slowdown: SLOWDOWN });
    const { curve, sentence } = await seen(page);
    slowed.push(Math.max(curve, sentence));
    await page.context().close();
  }
  // the machine's own noise only ever adds
  return rows([Math.min(...curves), Math.min(...sentences), Math.min(...slowed)], weight);
}
