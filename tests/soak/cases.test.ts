// What the soak once found: every file and every session that failed, made small, and held from then on.
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { EXAMPLE_BOARD, exampleLog } from "../../server/src/checks/example-board";
import { problemWith, type Spoilt } from "./files";
import { repeated, type Session } from "./sessions";
import { begin, differs, perform } from "./world";

const CASES = new URL("./cases/", import.meta.url);

type Case = ({ readonly is: "file" } & Spoilt) | ({ readonly is: "session" } & Session);

const cases = readdirSync(CASES)
  .filter((name) => name.endsWith(".json"))
  .map((name) => [name, JSON.parse(readFileSync(new URL(name, CASES), "utf8")) as Case] as const);

const LOG = exampleLog("## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 2 | 1.42 |\n");

test.each(cases)("%s", async (_, one) => {
  if (one.is === "file") expect(await problemWith(one)).toBeUndefined();
  else expect(await repeated(one)).toMatchObject({ ok: true });
});

test("a service that was not told of a change is told from one begun just now", async () => {
  const world = await begin({ "log.md": LOG, "example.board.yaml": EXAMPLE_BOARD });
  await perform(world, { does: "open", path: "log.md" });
  expect(await differs(world)).toBeUndefined();
  world.disk.set("example.board.yaml", EXAMPLE_BOARD.replace("U14:", "U44:"));
  expect(await differs(world)).toContain("after all that happened");
});

test("a file that is spoilt beyond its end is told", async () => {
  expect(await problemWith({ files: { "log.md": LOG }, path: "none.md", at: 0 })).toContain("TypeError");
});
