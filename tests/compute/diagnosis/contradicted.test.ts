// Two readings of one pin that contradict each other: one is a slip, or the fault comes and goes.
import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { diagnose } from "../../../server/src/compute/diagnosis";
import { nextReading } from "../../../server/src/compute/diagnosis/next-reading";
import { isRepair } from "../../../server/src/compute/diagnosis/suspects";
import { fromLog } from "../../../server/src/review/diagnosis/from-log";
import { openAt } from "../../support/workspace";

const ROWS = "## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n";

async function asked(rows: string) {
  const { view } = await openAt(`${exampleLog(ROWS + rows)}$0`);
  const log = fromLog(view);
  if (!log) throw new Error("no board");
  const result = diagnose(log.input);
  if (!result.ok) throw new Error(result.reason);
  return { result, advice: nextReading(log.input, result) };
}

test("a slip is likely and not certain, a contact that comes and goes is next, and it is measured again first", async () => {
  const { result, advice } = await asked("| U14 | 2 | OL |\n| U14 | 2 | 0.56 |\n");
  const [first] = result.candidates;
  expect(first?.suspects.map(({ kind }) => kind)).toEqual(["misreading"]);
  expect(first?.probability).toBeGreaterThan(0.5);
  expect(first?.probability).toBeLessThan(0.97);
  expect(result.ranked[0]?.suspect.kind).toBe("joint");
  expect(result.conflicts[0]?.reason).toBe(
    "U14 pin 2 reads high or open on ROW_1, and was read within limits as well: measure again.",
  );
  expect(advice.best).toMatchObject({ kind: "read-again", ref: "U14", pin: "2" });
  expect(advice.best?.reason).toMatch(
    /^Read U14 pin 2 again .*, pressing the chip and flexing the board: this pin read in limits once and out of limits once/,
  );
});

test("wrong twice and right once is more than a slip", async () => {
  const once = await asked("| U14 | 2 | OL |\n| U14 | 2 | 0.56 |\n");
  const twice = await asked("| U14 | 2 | OL |\n| U14 | 2 | 0.56 |\n| U14 | 2 | OL |\n");
  const slip = ({ result }: typeof once) =>
    result.candidates
      .filter(({ suspects }) => !suspects.some(isRepair))
      .reduce((sum, { probability }) => sum + probability, 0);
  expect(slip(twice)).toBeLessThan(slip(once) / 2);
});

test("a pin that was only read wrong is not asked for again before all else", async () => {
  const { result, advice } = await asked("| U14 | 2 | OL |\n");
  expect(result.conflicts[0]?.contradicted).toBeUndefined();
  expect(advice.best?.reason).not.toMatch(/pressing the chip/);
});
