// What is kept back for what the model cannot tell apart: a chip and its socket, its joints, the track, the part beside it.
// Shares that rest on the model alone were so less often than they said, on two benches that do not share it.

/**
 * Share of the cases in which the truth lies around the likeliest suspects and not where the model puts it. Set on the
 * injected faults, so that what is stated is so within a tenth in each band, and held against the stories.
 */
export const ALLOWANCE = 0.1;
/** How much of the differences between suspects is left in those cases. */
const FLAT = 0.3;
/** Suspects that it is spread over: those that anybody would look at next. */
const AROUND = 20;

/**
 * Shares as they may be stated, in the order given, which is from the likeliest on and stays so. Of suspects that are
 * together in one explanation each keeps its own share, so that they may add up to more than one.
 */
export function stated(probabilities: readonly number[]): number[] {
  const near = probabilities.slice(0, AROUND);
  const spread = Math.min(
    1,
    near.reduce((sum, p) => sum + p, 0),
  );
  const flat = near.map((p) => p ** FLAT);
  const all = flat.reduce((sum, p) => sum + p, 0) || 1;
  return probabilities.map((p, i) => (1 - ALLOWANCE) * p + (ALLOWANCE * spread * (flat[i] ?? 0)) / all);
}
