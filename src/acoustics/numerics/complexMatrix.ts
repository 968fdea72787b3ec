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
      const end = 2 * (k + 1) * columns;
      for (let from = 2 * k * columns, to = 2 * i * columns; from < end; from += 2, to += 2) {
        const a = y[from];
        const b = y[from + 1];
        out[to] += re * a - im * b;
        out[to + 1] += re * b + im * a;
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
    for (let i = k, at = 2 * (k * n + k); i < n; i++, at += 2 * n) {
      const size = a[at] * a[at] + a[at + 1] * a[at + 1];
      if (size > largest) {
        pivot = i;
        largest = size;
      }
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
    const endOfA = 2 * (k + 1) * n;
    const startOfB = 2 * k * columns;
    const endOfB = startOfB + 2 * columns;
    scale(a, at + 2, endOfA, re, im);
    scale(b, startOfB, endOfB, re, im);
    for (let i = k + 1; i < n; i++) {
      const below = 2 * (i * n + k);
      const re = a[below];
      const im = a[below + 1];
      if (re === 0 && im === 0) continue;
      subtract(a, at + 2, endOfA, below + 2, re, im);
      subtract(b, startOfB, endOfB, 2 * i * columns, re, im);
    }
  }
  for (let k = n - 1; k > 0; k--)
    for (let i = 0; i < k; i++) {
      const at = 2 * (i * n + k);
      subtract(b, 2 * k * columns, 2 * (k + 1) * columns, 2 * i * columns, a[at], a[at + 1]);
    }
}

function swapRows(m: Float64Array, i: number, k: number, columns: number): void {
  const end = 2 * (i + 1) * columns;
  for (let at = 2 * i * columns, other = 2 * k * columns; at < end; at++, other++) {
    const kept = m[at];
    m[at] = m[other];
    m[other] = kept;
  }
}

function scale(m: Float64Array, start: number, end: number, re: number, im: number): void {
  for (let at = start; at < end; at += 2) {
    const x = m[at];
    const y = m[at + 1];
    m[at] = x * re - y * im;
    m[at + 1] = x * im + y * re;
  }
}

/** What begins at `to` less a factor times what stands from `start` to `end`. */
function subtract(m: Float64Array, start: number, end: number, to: number, re: number, im: number): void {
  for (let of = start, at = to; of < end; of += 2, at += 2) {
    const x = m[of];
    const y = m[of + 1];
    m[at] -= re * x - im * y;
    m[at + 1] -= re * y + im * x;
  }
}
