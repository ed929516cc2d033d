export type HintKind = "pin" | "verdict";

export interface Hint {
  readonly kind: HintKind;
  /** Behind which character it stands; of the document. */
  readonly at: number;
  readonly label: string;
}
