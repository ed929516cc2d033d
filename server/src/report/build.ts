import { defined } from "../base/defined";
import type { Finding, Fix } from "../checks/check";
import { type LineIndex, lineIndex } from "../text/line-index";
import type { Span } from "../text/span";
import type { FileKind, Range, ReportFile, ReportFinding, TextLocation } from "./model";

export interface FileInput {
  readonly path: string;
  readonly kind: FileKind;
  readonly text: string;
  readonly findings: readonly Finding[];
  /** The preferred one, where the finding has one. */
  readonly fix: (finding: Finding) => Fix | undefined;
  /** Path and text of the file that a related place is in; empty where it is not at hand. */
  readonly other: (uri: string) => { readonly path: string; readonly text: string };
}

/** Works out the places of a file's findings. In a file whose text is not at hand every place is its beginning. */
export function buildFile({ path, kind, text, findings, fix: fixOf, other }: FileInput): ReportFile {
  const lines = lineIndex(text);
  const known = new Map<string, LineIndex>([[text, lines]]);
  // Many findings speak of the same few other files.
  const linesOf = (of: string): LineIndex => {
    const found = known.get(of) ?? lineIndex(of);
    known.set(of, found);
    return found;
  };
  return { path, kind, text, findings: findings.map((finding) => build(finding)) };

  function build(finding: Finding): ReportFinding {
    const fix = preferred(fixOf, finding);
    return defined({
      code: finding.code,
      severity: finding.severity,
      message: finding.message,
      formula: finding.formula || undefined,
      detail: finding.more || undefined,
      source: finding.source || undefined,
      ...textRange(lines, finding.span),
      related: (finding.related ?? []).map((related) => {
        const file = other(related.uri);
        const range = textRange(linesOf(file.text), related.span);
        return { path: file.path, message: related.message, ...range };
      }),
      tags: finding.tags ?? [],
      fix: fix
        ? {
            title: fix.title,
            ...(fix.certain && !fix.elsewhere && !fix.creates && !fix.asks ? { certain: true as const } : {}),
            edits: fix.edits.map((edit) => ({ ...textRange(lines, edit.span), newText: edit.newText })),
          }
        : undefined,
    });
  }
}

/** A fix that breaks down must not take its finding with it. */
function preferred(fixOf: FileInput["fix"], finding: Finding): Fix | undefined {
  try {
    return fixOf(finding);
  } catch {
    return undefined;
  }
}

export function textRange(lines: LineIndex, span: Span): Range {
  return { start: placeOf(lines, span.start), end: placeOf(lines, span.end) };
}

function placeOf(lines: LineIndex, offset: number): TextLocation {
  const { line, character } = lines.positionAt(offset);
  return { offset: Math.min(offset, lines.length), line: line + 1, column: character + 1 };
}
