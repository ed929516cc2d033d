// Gauss-Legendre quadrature, its nodes computed rather than tabulated.

const ORDER = 16;

interface Node {
  /** On -1 to 1. */
  readonly x: number;
  readonly weight: number;
}

/** Zeros of the Legendre polynomial of the order by Newton's method, from the usual cosine guess. */
const NODES: readonly Node[] = Array.from({ length: ORDER }, (_, i) => {
  let x = Math.cos((Math.PI * (i + 0.75)) / (ORDER + 0.5));
  for (let step = 0; step < 6; step += 1) {
    const { value, slope } = legendre(x);
    x -= value / slope;
  }
  return { x, weight: 2 / ((1 - x * x) * legendre(x).slope ** 2) };
});

function legendre(x: number): { readonly value: number; readonly slope: number } {
  let before = 1;
  let value = x;
  for (let n = 2; n <= ORDER; n += 1) {
    [before, value] = [value, ((2 * n - 1) * x * value - (n - 1) * before) / n];
  }
  return { value, slope: (ORDER * (before - x * value)) / (1 - x * x) };
}

/** Integral of a smooth `f` from `low` to `high`, cut into equal panels of 16 nodes each. */
export function integrate(f: (x: number) => number, low: number, high: number, panels: number): number {
  const half = (high - low) / panels / 2;
  let sum = 0;
  for (let panel = 0; panel < panels; panel += 1) {
    const middle = low + (2 * panel + 1) * half;
    for (const { x, weight } of NODES) sum += weight * f(middle + half * x);
  }
  return sum * half;
}
