import { expect, test } from "vitest";
import { everyFinding } from "../support/every-finding";

// It is found without making the fixes that have to be chosen: the same one must come of it.
test("the preferred fix of every finding is the first preferred one of all that are offered", async () => {
  let some = 0;
  for (const { where, service, uri, finding } of await everyFinding()) {
    const preferred = service.fixes(uri, finding).find((fix) => fix.preferred);
    expect(service.preferredFix(uri, finding), where).toEqual(preferred);
    if (preferred) some++;
  }
  expect(some).toBeGreaterThan(20);
});
