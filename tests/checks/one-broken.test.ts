// A mistake in one check costs its own findings and says so; everybody else's are there.
import { afterEach, expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { checkOf } from "../../server/src/checks/registry";
import { openWorld } from "../support/workspace";

const LOG = exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 3   | 1.42    |
| U99 | 1   | 0.58    |
`);

const broken = checkOf("unknown-designator")!;
const { run } = broken;
afterEach(() => Object.assign(broken, { run }));

async function codes(): Promise<string[]> {
  const { service, files } = await openWorld(LOG);
  return service.findings(files[0]!.uri).map(({ code }) => code);
}

test("one broken check hides no other, and is told", async () => {
  expect(await codes()).toEqual(expect.arrayContaining(["diode-out-of-window", "unknown-designator"]));
  Object.assign(broken, {
    run() {
      throw new Error("no such thing");
    },
  });
  const found = await codes();
  expect(found).toEqual(expect.arrayContaining(["diode-out-of-window", "check-failed"]));
  expect(found).not.toContain("unknown-designator");
});
