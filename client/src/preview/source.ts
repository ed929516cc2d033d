import type { Preview } from "../../../server/src/protocol/own/preview";
import type { Share, Suspects } from "../../../server/src/protocol/own/suspects";

/** What is shown beside the text of one log. */
export interface Shown {
  readonly preview: Preview;
  readonly suspects?: Suspects;
}

/** Where the preview's marks come from. The preview renders at once, so the answer is what is known by now. */
export interface Source {
  /**
   * @param uri of the document, where the preview says which it is
   * @param text with its line ends as `\n`
   * @returns undefined while nothing is known of exactly this text
   */
  shown(uri: string | undefined, text: string): Shown | undefined;
  readonly words: Words;
}

/** What the preview itself says, in the editor's language; what is said about the log comes with the answer. */
export interface Words {
  readonly findings: (count: number) => string;
  readonly line: (line: number) => string;
  readonly severity: Readonly<Record<Preview["findings"][number]["severity"], string>>;
  readonly suspects: string;
  readonly share: (share: Share) => string;
  readonly nextReading: string;
  readonly minutes: (minutes: number) => string;
  readonly pictures: string;
}
