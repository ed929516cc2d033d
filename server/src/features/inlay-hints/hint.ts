export type HintKind = "pin" | "verdict";

/** Words shown between the typed ones, which are in no file. */
export interface Hint {
  readonly kind: HintKind;
  /** Behind which character it stands; of the document. */
  readonly at: number;
  readonly label: string;
}
