import { expect, test } from "vitest";
import { signatureAt } from "../../../server/src/features/signature";
import { openAt } from "../../support/workspace";

/** The label with the active part in brackets, and what is said of that part. */
async function checkSignature(fixture: string, label: string, ...says: readonly string[]): Promise<void> {
  const { view, offset } = await openAt(fixture);
  const found = signatureAt(view, offset);
  const at = found?.active === undefined ? undefined : found.parameters[found.active];
  const marked =
    found && at
      ? `${found.label.slice(0, at.span.start)}[${found.label.slice(at.span.start, at.span.end)}]${found.label.slice(at.span.end)}`
      : found?.label;
  expect(marked).toBe(label);
  for (const piece of says) expect(`${found?.documentation}\n${at?.documentation}`).toContain(piece);
}

const log = (body: string): string => `---\nmendlog: 1\nboard: example\n---\n\n${body}`;
const TABLE = `## Diode check

| Ref | Pin | Reading | Note |
| --- | --- | ------- | ---- |
| U14 | 2   | 0.58    | x    |
`;

test("a row shows its columns with the one being filled", async () => {
  await checkSignature(log(TABLE.replace("| U14", "| U$014")), "[Ref] | Pin | Reading (V) | Note", "U14");
  await checkSignature(
    log(TABLE.replace("0.58", "0.$058")),
    "Ref | Pin | [Reading (V)] | Note",
    "Diode check",
    "in `V` where no unit is typed",
    "U14 pin 2",
  );
  await checkSignature(
    log(TABLE.replace("| x", "| x$0")),
    "Ref | Pin | Reading (V) | [Note]",
    "Words of your own",
  );
});

test("a row that is still being typed shows the cell that begins", async () => {
  await checkSignature(log(`${TABLE}| U15 | $0`), "Ref | [Pin] | Reading (V) | Note", "number or its name");
});

test("a reading that is not there yet shows what its pin should read", async () => {
  await checkSignature(log(`${TABLE}| U15 | 1 | $0`), "Ref | Pin | [Reading (V)] | Note", "U15 pin 1", "0.4");
});

test("a wide table shows its chips", async () => {
  const wide = "## Diode check\n\n| Pin | U14 | U15 |\n| --- | --- | --- |\n| 2 | 0.5 | $0 |\n";
  await checkSignature(log(wide), "Pin | U14 | [U15]", "What the meter shows", "U15 pin 2");
});

test("a unit in the heading counts", async () => {
  await checkSignature(
    log(TABLE.replace("Reading", "Drop (mV)").replace("0.58", "5$080")),
    "Ref | Pin | [Drop (mV)] | Note",
    "in `mV`",
  );
});

test("a field of the front matter shows what it takes", async () => {
  const front = (line: string): string => `---\nmendlog: 1\nboard: example\n${line}\n---\n`;
  await checkSignature(
    front("stage: $0"),
    "stage: [received | diagnosing | waiting-for-approval | waiting-for-parts | repairing | proving | returned | scrapped]",
  );
  await checkSignature(front("revision: $0"), "revision: [A | B]");
  await checkSignature(front("received: 2026$0"), "received: [2026-03-02]");
});

test("prose and names of fields have nothing to show", async () => {
  const { view, offset } = await openAt(log("Some $0words."));
  expect(signatureAt(view, offset)).toBeUndefined();
  const key = await openAt("---\nmendlog: 1\nsta$0ge: received\n---\n");
  expect(signatureAt(key.view, key.offset)).toBeUndefined();
});
