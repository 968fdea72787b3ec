/**
 * The same cascade as it reads in a textbook, with mathjs matrices of complex numbers: nothing cached, nothing clever. What
 * typed arrays and interpolation are measured against.
 */
import {
  add,
  type Complex,
  complex,
  cosh,
  divide,
  type Matrix,
  matrix,
  multiply,
  sinh,
  sqrt,
  subtract,
} from "mathjs";

interface Air {
  readonly density: number;
  readonly soundSpeed: number;
  readonly viscosity: number;
  readonly heatRatio: number;
  readonly prandtl: number;
}

const c = (value: unknown): Complex => value as Complex;

/** 2J₁(z)/(zJ₀(z)), z² = −js, by its continued fraction. */
function wallLoss(s: number): Complex {
  const y2 = complex(0, s);
  const terms = Math.ceil(16 + 1.2 * Math.sqrt(s));
  let fraction = complex(2 * terms, 0);
  for (let k = terms - 1; k >= 1; k--) fraction = c(add(2 * k, divide(y2, fraction)));
  return c(divide(2, fraction));
}

function cone(air: Air, r0: number, r1: number, length: number, omega: number): Matrix {
  const r = (r0 + r1) / 2;
  const s = (r * r * omega * air.density) / air.viscosity;
  const zv = divide(complex(0, omega * air.density), subtract(1, wallLoss(s)));
  const yt = multiply(
    complex(0, omega / (air.density * air.soundSpeed ** 2)),
    add(1, multiply(air.heatRatio - 1, wallLoss(s * air.prandtl))),
  );
  const gamma = c(sqrt(c(multiply(zv, yt))));
  const impedance = c(sqrt(c(divide(zv, yt))));
  const theta = c(multiply(gamma, length));
  const [ch, sh] = [c(cosh(theta)), c(sinh(theta))];
  const m = (r1 - r0) / length;
  const perGamma = c(divide(m, gamma));
  const a = divide(subtract(multiply(r1, ch), multiply(perGamma, sh)), r0);
  const d = divide(add(multiply(r0, ch), multiply(perGamma, sh)), r1);
  const b = divide(multiply(impedance, sh), Math.PI * r0 * r1);
  const cc = divide(subtract(multiply(c(a), c(d)), 1), c(b));
  return matrix([
    [c(a), c(b)],
    [c(cc), c(d)],
  ]);
}

/** Z at the rim, an ideally open bell standing in for the radiation, which costs nothing beside the cones. */
export function impedance(
  air: Air,
  sections: readonly (readonly [number, number, number])[],
  f: number,
): Complex {
  let product = matrix([
    [complex(1, 0), complex(0, 0)],
    [complex(0, 0), complex(1, 0)],
  ]);
  for (const [r0, r1, length] of sections)
    product = multiply(product, cone(air, r0, r1, length, 2 * Math.PI * f));
  return c(divide(c(product.get([0, 1])), c(product.get([1, 1]))));
}
