import { describe, expect, it } from "vitest";
import { whenLeft } from "../../../server/src/features/shared/tables/leaving";

/** What an editor makes of a cell by a stop's transform: regular expression and format, as the protocol has them. */
function leave(typed: string, transform: string): string {
  const [, pattern = "", format = ""] = /^\/(.*)\/((?:[^/])*)\/$/s.exec(transform) ?? [];
  return typed.replace(new RegExp(pattern), (...groups: string[]) =>
    format.replace(/\$\{(\d+):\+([^}]*)\}|\$(\d+)/g, (_, n, text, plain) =>
      plain === undefined ? (groups[Number(n)] ? text : "") : (groups[Number(plain)] ?? ""),
    ),
  );
}

describe("a cell that is left", () => {
  it.each(["0.58", "OL", "1", "0.558 V"])("with %s in it is padded to its column", (typed) => {
    expect(leave(typed, whenLeft(7))).toBe(typed.padEnd(7));
  });

  it.each(["       ", "pulsing slowly"])("with %j in it is as wide as it has to be", (typed) => {
    expect(leave(typed, whenLeft(7))).toBe(typed);
  });

  it.each([
    ["558", "0.558 V  "],
    ["1487", "1.487 V  "],
    ["0001", "0.001 V  "],
    ["312", "0.312 V  "],
  ])("has its point where its digits can only be one reading: %s is %s", (typed, left) => {
    expect(leave(typed, whenLeft(9, { limit: 3 }))).toBe(left);
  });

  it.each(["142", "58", "0", "0.558", "5580", "OL"])(
    "is left as typed where its digits can be several readings or none: %s",
    (typed) => expect(leave(typed, whenLeft(9, { limit: 3 }))).toBe(typed.padEnd(9)),
  );

  it("is left as typed where the column has no limit", () => {
    expect(leave("558", whenLeft(7))).toBe("558    ");
  });
});
