// What a reading is expected to tell, in bits.

/** Entropy in bits of shares that add up to one; 0 log 0 counts as 0. */
export const entropy = (shares: readonly number[]): number =>
  shares.reduce((sum, share) => (share > 0 ? sum - share * Math.log2(share) : sum), 0);

/**
 * Expected drop of the entropy over candidates by one reading. `likelihood[candidate][outcome]` is the probability
 * of the outcome where the candidate is true; over the outcomes they add up to one. Never below zero.
 */
export function expectedInformation(
  shares: readonly number[],
  likelihood: readonly (readonly number[])[],
): number {
  let left = 0;
  const outcomes = likelihood[0]?.length ?? 0;
  for (let outcome = 0; outcome < outcomes; outcome += 1) {
    // The chance of the outcome times the entropy after it, without dividing by the chance.
    let chance = 0;
    let spread = 0;
    for (let i = 0; i < shares.length; i += 1) {
      const joint = shares[i]! * likelihood[i]![outcome]!;
      if (joint <= 0) continue;
      chance += joint;
      spread -= joint * Math.log2(joint);
    }
    if (chance > 0) left += spread + chance * Math.log2(chance);
  }
  return Math.max(0, entropy(shares) - left);
}
