// Finding where a monotone function crosses zero: what every quantile here comes down to.

const MAX_STEPS = 200;
const CLOSE = 2e-16;

/**
 * Zero of `f` between `low` and `high`, which must bracket it (`f` of one sign at each end). Ridders' method
 * (1979): always keeps the bracket and gains about twice the digits every two evaluations. The result is good
 * to the last bits of the argument as far as `f` itself is. NaN where the ends do not bracket.
 */
export function rootBetween(f: (x: number) => number, low: number, high: number): number {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa < 0 !== fb < 0) || Number.isNaN(fa + fb)) return Number.NaN;
  let last = Number.NaN;
  for (let step = 0; step < MAX_STEPS; step += 1) {
    const middle = (a + b) / 2;
    const fm = f(middle);
    if (fm === 0) return middle;
    const slope = Math.sqrt(fm * fm - fa * fb);
    const next = slope === 0 ? middle : middle + ((middle - a) * (fa > fb ? 1 : -1) * fm) / slope;
    const fn = f(next);
    if (fn === 0 || Math.abs(next - last) <= CLOSE * Math.abs(next)) return next;
    last = next;
    if (fm < 0 !== fn < 0) {
      [a, fa, b, fb] = middle < next ? [middle, fm, next, fn] : [next, fn, middle, fm];
    } else if (fa < 0 !== fn < 0) [b, fb] = [next, fn];
    else [a, fa] = [next, fn];
    if (Math.abs(b - a) <= CLOSE * Math.max(Math.abs(a), Math.abs(b))) return next;
  }
  return last;
}

/**
 * Zero of a rising `f` near `start`, which need not bracket it: steps outwards, each step twice as long, until
 * it does. NaN where `f` does not change sign within 60 doublings.
 */
export function rootNear(f: (x: number) => number, start: number, step: number): number {
  const first = f(start);
  if (first === 0 || Number.isNaN(first)) return first === 0 ? start : first;
  const towards = first < 0 ? 1 : -1;
  let near = start;
  for (let doubling = 0; doubling < 60; doubling += 1) {
    const far = near + towards * step * 2 ** doubling;
    const value = f(far);
    if (value === 0) return far;
    if (value < 0 !== first < 0) return rootBetween(f, Math.min(near, far), Math.max(near, far));
    near = far;
  }
  return Number.NaN;
}
