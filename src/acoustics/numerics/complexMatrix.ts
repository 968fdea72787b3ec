/**
 * Small dense complex matrices, row by row, re and im alternating: what a field of several modes needs. Own code, as ml-matrix
 * has real numbers only and makes a matrix anew for every product; here one bell takes thousands of them.
 */

import { OutOfRange } from "../../units/outOfRange.ts";

/** out = X·Y, X of `rows` × `inner`, Y of `inner` × `columns`; `out` may be neither of them. */
export function multiply(
  x: Float64Array,
  y: Float64Array,
  rows: number,
  inner: number,
  columns: number,
  out: Float64Array,
): void {
  out.fill(0, 0, 2 * rows * columns);
  for (let i = 0; i < rows; i++)
    for (let k = 0; k < inner; k++) {
      const re = x[2 * (i * inner + k)];
      const im = x[2 * (i * inner + k) + 1];
      if (re === 0 && im === 0) continue;
      let from = 2 * k * columns;
      let to = 2 * i * columns;
      for (let j = 0; j < columns; j++, from += 2, to += 2) {
        out[to] += re * y[from] - im * y[from + 1];
        out[to + 1] += re * y[from + 1] + im * y[from];
      }
    }
}

/**
 * b ← a⁻¹·b by elimination with partial pivoting, for a of n × n (destroyed) and b of n × `columns`.
 * @throws OutOfRange where a is singular
 */
export function solve(a: Float64Array, b: Float64Array, n: number, columns: number): void {
  for (let k = 0; k < n; k++) {
    let pivot = k;
    let largest = 0;
    for (let i = k; i < n; i++) {
      const at = 2 * (i * n + k);
      const size = a[at] * a[at] + a[at + 1] * a[at + 1];
      if (size > largest) [pivot, largest] = [i, size];
    }
    if (!(largest > 0 && largest < Infinity))
      throw new OutOfRange("the bell's modes cannot be told apart at this frequency: ask for another one");
    if (pivot !== k) {
      swapRows(a, k, pivot, n);
      swapRows(b, k, pivot, columns);
    }
    const at = 2 * (k * n + k);
    const re = a[at] / largest;
    const im = -a[at + 1] / largest;
    scaleRow(a, k, n, k + 1, re, im);
    scaleRow(b, k, columns, 0, re, im);
    for (let i = k + 1; i < n; i++) subtractRow(a, b, k, i, n, columns);
  }
  for (let k = n - 1; k > 0; k--)
    for (let i = 0; i < k; i++) {
      const at = 2 * (i * n + k);
      addMultiple(b, k, i, columns, 0, -a[at], -a[at + 1]);
    }
}

function subtractRow(a: Float64Array, b: Float64Array, k: number, i: number, n: number, columns: number) {
  const at = 2 * (i * n + k);
  const re = -a[at];
  const im = -a[at + 1];
  if (re === 0 && im === 0) return;
  addMultiple(a, k, i, n, k + 1, re, im);
  addMultiple(b, k, i, columns, 0, re, im);
}

function swapRows(m: Float64Array, i: number, k: number, columns: number): void {
  for (let j = 0; j < 2 * columns; j++) {
    const kept = m[2 * i * columns + j];
    m[2 * i * columns + j] = m[2 * k * columns + j];
    m[2 * k * columns + j] = kept;
  }
}

function scaleRow(m: Float64Array, row: number, columns: number, from: number, re: number, im: number): void {
  for (let at = 2 * (row * columns + from); at < 2 * (row + 1) * columns; at += 2) {
    const x = m[at];
    m[at] = x * re - m[at + 1] * im;
    m[at + 1] = x * im + m[at + 1] * re;
  }
}

/** Row `to` ← row `to` + factor · row `of`, from column `from` on. */
function addMultiple(
  m: Float64Array,
  of: number,
  to: number,
  columns: number,
  from: number,
  re: number,
  im: number,
): void {
  let source = 2 * (of * columns + from);
  const end = 2 * (to + 1) * columns;
  for (let at = 2 * (to * columns + from); at < end; at += 2, source += 2) {
    m[at] += re * m[source] - im * m[source + 1];
    m[at + 1] += re * m[source + 1] + im * m[source];
  }
}
