import { Range } from "vscode";

interface Place {
  readonly line: number;
  readonly character: number;
}

/** The editor's own range from the protocol's. */
export const toEditorRange = ({ start, end }: { readonly start: Place; readonly end: Place }): Range =>
  new Range(start.line, start.character, end.line, end.character);
