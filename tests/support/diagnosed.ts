// The diagnosis of a log: who is suspected, how strongly, and of what.
import { diagnose } from "../../server/src/compute/diagnosis";
import { suspectName } from "../../server/src/compute/diagnosis/suspects";
import { fromLog } from "../../server/src/review/diagnosis/from-log";
import { diagnosisOf } from "../../server/src/review/diagnosis/of-log";
import { logOf } from "./boards";
import { openDemo } from "./demo";
import { openAt } from "./workspace";

/** The diagnosis of a log of the board: `share` is a suspect's probability, 0 where it is not suspected. */
export async function diagnosedOn(board: string, body: string) {
  const { view } = await openAt(`${logOf(board, body)}$0`);
  const taken = fromLog(view);
  if (!taken) throw new Error("no board");
  const result = diagnose(taken.input);
  if (!result.ok) throw new Error(result.reason);
  const share = (id: string): number =>
    result.ranked.find(({ suspect }) => suspect.id === id)?.probability ?? 0;
  return { ...taken, result, share, first: result.ranked[0]?.suspect.id };
}

/** The diagnosis of a log of a demo board, with one symptom and these tables. */
export async function diagnosedInDemo(
  board: "controller" | "driver",
  symptom: string,
  ...tables: readonly string[]
) {
  const service = await openDemo();
  const uri = "mem:/demo/logs/sign.md";
  const front = `---\nmendlog: 1\nboard: regatta-${board}\nrevision: B\nsymptoms: [${symptom}]\n---\n\n`;
  service.open(uri, front + tables.join("\n"));
  const view = service.view(uri);
  const found = view && diagnosisOf(view);
  if (!found) throw new Error("no diagnosis");
  return {
    first: found.diagnosis.ranked.slice(0, 3).map(({ suspect }) => suspectName(suspect)),
    next: found.advice.best,
    signs: found.log.input.findings.flatMap((finding) => (finding.kind === "sign" ? finding.sign : [])),
  };
}
