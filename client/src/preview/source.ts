import type { Preview } from "../../../server/src/protocol/custom-requests/preview";
import type { ShareWords, Suspects } from "../../../server/src/protocol/custom-requests/suspects";

/** What is shown beside the text of one log. */
export interface PreviewContent {
  readonly preview: Preview;
  readonly suspects?: Suspects;
}

/** Where the preview's marks come from. The preview renders at once, so the answer is what is known by now. */
export interface PreviewSource {
  /**
   * @param uri of the document, where the preview says which it is
   * @param text with its line ends as `\n`
   * @returns undefined while nothing is known of exactly this text
   */
  shown(uri: string | undefined, text: string): PreviewContent | undefined;
  readonly words: PreviewWords;
}

/** What the preview itself says, in the editor's language; what is said about the log comes with the answer. */
export interface PreviewWords {
  readonly findings: (count: number) => string;
  readonly line: (line: number) => string;
  readonly severity: Readonly<Record<Preview["findings"][number]["severity"], string>>;
  readonly suspects: string;
  readonly share: (share: ShareWords) => string;
  readonly nextReading: string;
  readonly minutes: (minutes: number) => string;
  readonly pictures: string;
}
