// Everything the program says about a reading, over the whole demo and the trial board: a reading disproves, it
// never proves.

import { describe, expect, it } from "vitest";
import { completeLog } from "../../server/src/features/completion";
import { hoverLog } from "../../server/src/features/hover";
import { judgeBlock } from "../../server/src/judge";
import { inWords } from "../../server/src/text/saying";
import { demoLogs, openDemo } from "../support/demo";
import { judgePin } from "../support/judged";

const PROOF =
  /\b(?:is|are|reads|tests|tested|looks|was|be|pin|chip|part)\s+(?:good|fine|ok|okay|healthy|sound)\b|\bpass(?:ed|es)?\b|\bproves\b|\bproven\b/i;

async function everythingSaid(): Promise<Map<string, string>> {
  const service = await openDemo();
  const said = new Map<string, string>();
  for (const [uri, text] of demoLogs) {
    service.open(uri, text);
    const view = service.view(uri);
    if (!view) continue;
    for (const { start, block } of view.doc.blocks) {
      for (const { says, reading } of judgeBlock(block, view.ctx).values()) {
        const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
        said.set(sentence, uri);
        if (reading.table.procedure.powered === "powered") continue;
        const at = start + reading.cell.span.start;
        said.set(hoverLog(view, at)?.markdown ?? "", uri);
        for (const { label, description } of completeLog(view, at)) {
          // Words offered for a result column are the technician's to choose.
          if (reading.spec.role === "reading") said.set(`${label} ${description ?? ""}`, uri);
        }
      }
    }
    for (const { message } of service.findings(uri)) said.set(message, uri);
  }
  return said;
}

describe("what is said of readings", () => {
  it("never takes a reading for proof", async () => {
    const said = await everythingSaid();
    expect(said.size).toBeGreaterThan(200);
    for (const [sentence, uri] of said) {
      expect(sentence.replace(/cannot prove|proves nothing|not proven|proving list/gi, ""), uri).not.toMatch(
        PROOF,
      );
    }
  });

  it("is full sentences, each with a source where there are limits", async () => {
    const service = await openDemo();
    for (const [uri, text] of demoLogs) {
      service.open(uri, text);
      const view = service.view(uri);
      for (const { block } of view?.doc.blocks ?? []) {
        for (const { says, reference, verdict, reading } of view
          ? judgeBlock(block, view.ctx).values()
          : []) {
          const sentence = [inWords(says), says.more].filter(Boolean).join(" ");
          expect(sentence).toMatch(/^["\w+-].*[.?]$/);
          expect(sentence).not.toMatch(/undefined|NaN|∞|\s{2}|\.\./);
          if (reference) expect(reference.source).not.toBe("");
          if (verdict === "within-limits" && reading.table.procedure.id === "diode-check")
            expect(sentence).toContain("Not disproved");
        }
      }
    }
  });

  it.each(["0.58", "0.2", "1.42", "0.75", "OL", "0.002"])(
    "names the same window in the verdict on %s as in the formula",
    async (typed) => {
      const { says, formula, reference } = await judgePin("U1.1", typed);
      const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
      expect(reference).toBeDefined();
      expect(sentence).toContain("0.4 V to 0.7 V");
      expect(formula).toMatch(/0\.[47] V/);
    },
  );
});
