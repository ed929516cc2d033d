// What a reading is expected to tell, in bits.

/** Entropy in bits of shares that add up to one; 0 log 0 counts as 0. */
export const entropy = (shares: readonly number[]): number =>
  shares.reduce((sum, share) => (share > 0 ? sum - share * Math.log2(share) : sum), 0);

/**
 * Expected drop of the entropy over candidates by one reading. `likelihood[outcome][candidate]` is the probability
 * of the outcome where the candidate is true; over the outcomes they add up to one. Never below zero.
 */
export function expectedInformation(
  shares: readonly number[],
  likelihood: readonly (readonly number[])[],
): number {
  let left = 0;
  for (const row of likelihood) {
    const joint = shares.map((share, i) => share * (row[i] ?? 0));
    const chance = joint.reduce((a, b) => a + b, 0);
    if (chance > 0) left += chance * entropy(joint.map((value) => value / chance));
  }
  return Math.max(0, entropy(shares) - left);
}
