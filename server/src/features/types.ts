// What features answer with: offsets and plain values. The protocol layer turns them into the wire's shapes.
import type { Fix } from "../checks/check";
import type { Picture } from "../pictures/svg";
import type { TextEdit } from "../text/edits";
import type { Markdown } from "../text/markdown";
import type { Span } from "../text/span";

/** What an item stands for, which editors show as a sign beside it. */
export type CompletionKind =
  | "field"
  | "value"
  | "part"
  | "pin"
  | "unit"
  | "device"
  | "heading"
  | "table"
  | "symptom"
  | "board"
  | "keyword";

/** One thing that can be put in at the cursor. */
export interface Completion {
  readonly label: string;
  readonly kind: CompletionKind;
  /** Shown beside the label: what the part or the pin is. */
  readonly description?: string;
  /** Markdown, shown when the item is looked at. */
  readonly documentation?: Markdown;
  /** What is replaced; of the document. */
  readonly span: Span;
  readonly newText: string;
  /** The same with tab stops, for editors that take them: `$1`, `${2:0.58}`, `$0`; literal `$`, `}` and `\` escaped. */
  readonly snippet?: string;
  /** The snippet for an editor that knows variables and transforms of stops: cells are straightened as they are left. */
  readonly filled?: string;
  /** What the typed characters are matched against, where that is not the label. */
  readonly filterText?: string;
  /** Place among the others; smaller first. Items come in the order they should be shown in. */
  readonly preselect?: boolean;
  /** True where the cell becomes this by itself once it is left, in an editor that does so: no list is needed then. */
  readonly byItself?: boolean;
  /** True where what comes next is chosen from a list, which may open at once in an editor that can. */
  readonly thenSuggest?: boolean;
  /** True where it is one of many, of which others come up once more is typed. */
  readonly oneOfMany?: boolean;
  /** True where the snippet has variables that the editor fills in; of no use to one that does not know them. */
  readonly variables?: boolean;
}

/** What is shown over a stretch of a file; the span is of the document. */
export interface Hover {
  readonly span: Span;
  readonly markdown: Markdown;
  /** For clients that show pictures; the words say all that it shows. */
  readonly picture?: HoverPicture;
  /** Files of the workspace, by their paths from the document; under the words, side by side, for clients that show pictures. */
  readonly photographs?: readonly { readonly path: string; readonly alt: string }[];
}

export interface HoverPicture {
  /** Offset in the markdown, between two paragraphs, where the picture belongs. */
  readonly at: number;
  /** Drawn only when it is shown; undefined where there is no picture of such a thing. */
  readonly draw: () => Picture | undefined;
}

/** A stretch of some file that can be gone to. */
export interface Target {
  readonly uri: string;
  /** What is shown, and what is selected in it. */
  readonly span: Span;
}

/** Where something is declared, and the words that name it at the cursor. */
export interface Definition {
  /** The words that were asked about. */
  readonly origin: Span;
  readonly targets: readonly Target[];
}

/** What an entry of an outline stands for, which editors show as a sign beside it. */
export type SymbolKind = "section" | "readings" | "field" | "part" | "net" | "rail" | "group";

/** An entry of a file's outline. `span` takes in all that belongs to it, `selection` only its name. */
export interface DocumentSymbol {
  readonly name: string;
  readonly detail?: string;
  readonly kind: SymbolKind;
  readonly span: Span;
  readonly selection: Span;
  readonly children: readonly DocumentSymbol[];
}

/** Lines that can be folded up under the first of them. */
export interface Fold {
  readonly span: Span;
  readonly kind: "section" | "table" | "front-matter" | "comment";
}

/** An edit that is offered at a place without anything being wrong there. */
export interface Refactor {
  readonly title: string;
  /** Edits in the document; none where it is disabled. */
  readonly edits: readonly TextEdit[];
  /** Made together with them. */
  readonly elsewhere?: NonNullable<Fix["elsewhere"]>;
  /** "insert" where nothing is said. */
  readonly kind?: "insert" | "rewrite";
  /** Why it cannot be done here, as a sentence. */
  readonly disabled?: string;
  /** Done by asking for it in place of edits: it writes into another file. */
  readonly asks?: "propose-limits";
}

export type { Fix };
