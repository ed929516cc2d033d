// What readings taken together say: one cause is one finding, and what only looks like one is left alone.
import { describe, expect, it } from "vitest";
import type { Finding } from "../../../server/src/checks/check";
import { checkOf } from "../../../server/src/checks/registry";
import { applyEdits } from "../../../server/src/text/edits";
import { openWorld } from "../../support/workspace";
import { ALIKE, CAUSED } from "./first-set";
import { MORE_ALIKE, MORE_CAUSED } from "./second-set";
import type { Together } from "./tables";

const CODES = new Set([
  "lead-off-ground",
  "leads-swapped",
  "pins-miscounted",
  "column-shifted",
  "readings-offset",
  "wrong-scale",
  "chip-as-a-whole",
]);

/** What is said of readings; what a log without a board file is asked besides is another matter. */
const OF_READINGS = new Set([
  "diode-out-of-window",
  "impossible-value",
  "rail-out-of-tolerance",
  "pin-shorted",
  "pin-outside-package",
  "like-pin-outlier",
  "net-disagreement",
  "shared-net-fault",
]);

const URI = "mem:/ws/log.md";

const logOf = (one: Together | string): string =>
  `---\nmendlog: 1\nboard: no-such-board\n---\n\n${typeof one === "string" ? one : one.log}`;

async function findingsOf(one: Together) {
  const { service } = await openWorld(logOf(one));
  return service.findings(URI);
}

const plain = (text: string): string => text.replace(/ +/g, " ");

function mendedBy(finding: Finding | undefined, text: string): string {
  const [fix] = Object.values((finding && checkOf(finding.code)?.fixes) ?? {}).flatMap((offer) =>
    finding ? offer(finding, { text }) : [],
  );
  return applyEdits(text, fix?.edits ?? []);
}

describe("one cause behind many readings", () => {
  it.each([...CAUSED, ...MORE_CAUSED])("$name", async (one) => {
    const found = await findingsOf(one);
    const causes = found.filter(({ code }) => CODES.has(code));
    const told = causes.map(({ code, data }) =>
      [code, ...((data as { refs?: string[] })?.refs ?? [])].join(" "),
    );
    expect(told).toEqual(one.causes);
    const single = found.filter(({ code }) => OF_READINGS.has(code)).map(({ message }) => message);
    expect(
      single.map((message) => (one.still ?? []).find((start) => message.startsWith(start)) ?? message),
    ).toEqual(one.still ?? []);
    for (const { message } of causes) expect(message.slice(0, 100)).toMatch(/\d/);
    expect(`${causes[0]?.message} ${causes[0]?.more ?? ""}`).toContain(one.says ?? "");
    if (one.mended !== undefined)
      expect(plain(mendedBy(causes[0], logOf(one)))).toBe(plain(logOf(one.mended)));
  });
});

describe("what looks like one cause and is none", () => {
  it.each([...ALIKE, ...MORE_ALIKE])("$name", async (one) => {
    const found = await findingsOf(one);
    expect(found.flatMap(({ code, message }) => (CODES.has(code) ? [message] : []))).toEqual([]);
  });
});
