import { expect, test } from "vitest";
import { documentOf, Store } from "../../../src/app/state/store.ts";
import { ComparedGaps } from "../../../src/app/work/comparedGaps.ts";
import { someSetup } from "../someSetup.ts";

test("the gaps compared are the document's, or those shown instead, and the document's again after it", () => {
  const store = new Store(documentOf(someSetup()));
  const compared = new ComparedGaps(store);
  const gaps = () => [compared.value.document.gapMm, compared.value.document.referenceGapMm];
  let news = 0;
  compared.subscribe(() => news++);
  store.setGap(3);
  expect(gaps()).toEqual([3, 2.54]);
  compared.show({ gapMm: 1, referenceGapMm: 2 });
  expect(gaps()).toEqual([1, 2]);
  expect(store.state.document.gapMm).toBe(3);
  const before = news;
  // the slider moves nothing while other gaps are shown
  store.setGap(4);
  compared.show({ gapMm: 1, referenceGapMm: 2 });
  expect(news).toBe(before);
  compared.show(null);
  expect(gaps()).toEqual([4, 2.54]);
});

test("the breath counts only while somebody explores under it", () => {
  const store = new Store(documentOf(someSetup()));
  const compared = new ComparedGaps(store);
  const breath = () => compared.value.document.breathLitresPerMinute;
  store.setBreath(20);
  expect(breath()).toBeUndefined();
  compared.blow(true);
  expect(breath()).toBe(20);
  store.setBreath(30);
  expect(breath()).toBe(30);
  compared.show({ gapMm: 1, referenceGapMm: 2 });
  compared.blow(false);
  expect(compared.value.document).toMatchObject({ gapMm: 1, referenceGapMm: 2 });
  expect(breath()).toBeUndefined();
  expect(store.state.document.breathLitresPerMinute).toBe(30);
});
