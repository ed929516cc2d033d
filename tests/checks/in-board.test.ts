import { expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { openWorld } from "../support/workspace";

/** What a log's finding points to beside itself, as "file: the words there". */
async function besides(body: string, code: string): Promise<string[]> {
  const { service } = await openWorld(
    exampleLog(body).replace("board: example", "board: example\nrevision: B"),
  );
  const uri = service.openLogs()[0]!;
  return service
    .findings(uri)
    .filter((finding) => finding.code === code)
    .flatMap(({ related }) => related ?? [])
    .map(
      ({ uri: where, span }) =>
        `${where.split("/").at(-1)}: ${(service.text(where) ?? "").slice(span.start, span.end)}`,
    );
}

test("a finding about what stands at a designator points to the board file's line", async () => {
  const board = ["example.board.yaml: U14"];
  const diode = "## Diode check\n\n| Ref | Pin | Reading |\n| --- | --- | --- |\n| U14 | 15 | 0.5 |\n";
  expect(await besides(diode, "pin-outside-package")).toEqual(board);
  const fitted = (part: string): string =>
    `## Parts fitted\n\n| Part | Quantity | Ref |\n| --- | --- | --- |\n| ${part} | 1 | U14 |\n`;
  expect(await besides(fitted("74LS00"), "part-does-not-fit")).toEqual(board);
  expect(await besides(fitted("DIP-16 socket"), "socket-wrong-size")).toEqual(board);
});
