/** How loud a verdict is. */
export type AlarmLevel = "alarm" | "doubt" | "calm";

/** How loud a verdict is, by its word in the protocol; words that are not known are calm. */
export const alarmLevel = (verdict: string): AlarmLevel =>
  verdict === "impossible" || verdict === "out-of-limits"
    ? "alarm"
    : verdict === "suspect"
      ? "doubt"
      : "calm";

/** True for verdicts that call a reading into question. */
export const isOutside = ({ verdict }: { readonly verdict: string }): boolean =>
  alarmLevel(verdict) !== "calm";
