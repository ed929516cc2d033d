/** How loud a verdict is. */
export type Level = "alarm" | "doubt" | "calm";

export const levelOf = (verdict: string): Level =>
  verdict === "impossible" || verdict === "out-of-limits"
    ? "alarm"
    : verdict === "suspect"
      ? "doubt"
      : "calm";

export const isOutside = ({ verdict }: { readonly verdict: string }): boolean => levelOf(verdict) !== "calm";
