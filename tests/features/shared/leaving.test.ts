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
  it("is padded to its column", () => {
    for (const typed of ["0.58", "OL", "1", "0.558 V"])
      expect(leave(typed, whenLeft(7))).toBe(typed.padEnd(7));
    expect(leave("       ", whenLeft(7))).toBe("       ");
    expect(leave("pulsing slowly", whenLeft(7))).toBe("pulsing slowly");
  });

  it("has its point where its digits can only be one reading", () => {
    const drop = whenLeft(9, { limit: 3 });
    expect(leave("558", drop)).toBe("0.558 V  ");
    expect(leave("1487", drop)).toBe("1.487 V  ");
    expect(leave("0001", drop)).toBe("0.001 V  ");
    expect(leave("312", drop)).toBe("0.312 V  ");
    for (const typed of ["142", "58", "0", "0.558", "5580", "OL"])
      expect(leave(typed, drop)).toBe(typed.padEnd(9));
    expect(leave("558", whenLeft(7))).toBe("558    ");
  });
});
