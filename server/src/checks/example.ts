// How a check's examples are written: each is a log, or files under lines `//- name`, and they are run as tests.

/** A fix as an example shows it. */
export interface ShownFix {
  readonly title: string;
  /**
   * What it makes of the files, as a unified diff with a line around each change and `@@` between changes. A file other
   * than the finding's stands under a line `//- name`; one that the fix makes has only added lines. Written on lines of
   * its own.
   */
  readonly makes: string;
  /** How many of the check's findings it leaves in the file, where that is not one less. */
  readonly leaves?: number;
  /** What a person answers where the fix asks for a name. */
  readonly answer?: string;
}

export interface ExampleWithFixes {
  readonly text: string;
  /** Every fix that the check offers in it, in the order of its findings; one that does the same again stands once. */
  readonly fixes: readonly ShownFix[];
}

/** Something that is found, with a line of carets under each place; of one that is only a text no fix is offered. */
export type BadExample = string | ExampleWithFixes;

export const textOf = (example: BadExample): string => (typeof example === "string" ? example : example.text);

export const fixesIn = (example: BadExample): readonly ShownFix[] =>
  typeof example === "string" ? [] : example.fixes;

/** The lines of `makes`, without the line ends they are written between. */
export const madeBy = ({ makes }: ShownFix): string => makes.replace(/^\n|\n$/g, "");
