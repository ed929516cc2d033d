import type { SelectionRange, SelectionRangeParams } from "vscode-languageserver";
import { defined } from "../base/defined";
import { answering } from "./answer";
import { toLspRange } from "./convert";
import { selectionsIn } from "./features";
import type { Session } from "./session";

/** One answer for each place that was asked about, in their order. */
export function handleSelectionRange(session: Session): void {
  const { connection, documents, service } = session;
  connection.onSelectionRanges(
    answering(session)("Selections", null, ({ textDocument, positions }: SelectionRangeParams) => {
      const document = documents.get(textDocument.uri);
      if (!document) return null;
      const { lines, uri } = document;
      const ranges: SelectionRange[] = [];
      for (const position of positions) {
        const offset = lines.offsetAt(position);
        const spans = selectionsIn(service, uri, offset);
        if (!spans) return null;
        let range: SelectionRange | undefined;
        for (const span of [...spans].reverse()) {
          range = defined({ range: toLspRange(lines, span), parent: range });
        }
        // An empty document has nothing around the place but itself.
        ranges.push(range ?? { range: toLspRange(lines, { start: offset, end: offset }) });
      }
      return ranges;
    }),
  );
}
