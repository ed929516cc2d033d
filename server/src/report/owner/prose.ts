// The log's own words to the owner, and its pictures.
import type { Nodes } from "mdast";
import type { LogDocument } from "../../log/document";
import { decoded } from "../../log/paths";
import { photographs } from "../../log/photographs";
import type { ReportImage, ReportSource } from "./model";

/** A heading under which the technician writes to the owner. */
const TO_OWNER = /\b(?:for|to)\s+(?:the\s+)?owner\b/i;

/** Paragraphs and list items under such headings, marks left out. */
export function notesIn({ doc }: ReportSource): readonly string[] {
  const notes: string[] = [];
  for (const { block } of doc.blocks) {
    let wanted = false;
    for (const node of block.source.tree.children) {
      if (node.type === "heading") wanted = TO_OWNER.test(wordsOf(node));
      else if (wanted && node.type === "paragraph") notes.push(wordsOf(node));
      else if (wanted && node.type === "list") notes.push(...node.children.map(wordsOf));
    }
  }
  return notes.map((note) => note.replace(/\s+/g, " ").trim()).filter((note) => note !== "");
}

/** Every picture once, in the order of the log; without its bytes. */
export function imagesIn({ doc }: ReportSource): readonly ReportImage[] {
  const images = new Map<string, ReportImage>();
  const visit = (node: Nodes): void => {
    if (node.type === "image" && !images.has(node.url))
      images.set(node.url, { alt: node.alt ?? "", source: node.url });
    if ("children" in node) for (const child of node.children) visit(child);
  };
  for (const { block } of doc.blocks) visit(block.source.tree);
  return sideBySide([...images.values()], doc);
}

function wordsOf(node: Nodes): string {
  if (node.type === "text" || node.type === "inlineCode") return node.value;
  if (node.type === "break") return " ";
  return "children" in node ? node.children.map(wordsOf).join(node.type === "listItem" ? " " : "") : "";
}

/** The pictures of after moved behind those of before that they belong to. */
function sideBySide(images: readonly ReportImage[], doc: LogDocument): readonly ReportImage[] {
  const { pairs } = photographs(doc);
  if (pairs.length === 0) return images;
  const at = (path: string): ReportImage | undefined =>
    images.find(({ source }) => decoded(source).replaceAll("\\", "/") === path);
  const after = new Map<ReportImage, ReportImage>();
  for (const pair of pairs) {
    const [one, other] = [at(pair.before.path), at(pair.after.path)];
    if (one && other && one !== other) after.set(one, other);
  }
  const moved = new Set(after.values());
  return images.flatMap((image): ReportImage[] => {
    const other = after.get(image);
    if (other)
      return [
        { ...image, when: "before" },
        { ...other, when: "after" },
      ];
    return moved.has(image) ? [] : [image];
  });
}
