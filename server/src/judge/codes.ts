/** Codes of the checks that report what judges find; the checks stand on a floor above, and each of these has one there. */
export type JudgementCode =
  | "unreadable-value"
  | "wrong-unit"
  | "impossible-value"
  | "point-missing"
  | "diode-out-of-window"
  | "rail-shorted"
  | "pin-shorted"
  | "rail-out-of-tolerance"
  | "coil-overload"
  | "coil-diode"
  | "passive-out-of-tolerance"
  | "junction-disproved"
  | "chip-test-failed"
  | "level-undefined"
  | "outside-expected";
