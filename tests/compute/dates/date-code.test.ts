import { describe, expect, test } from "vitest";
import { dateCodeOf, readDateCode } from "../../../server/src/compute/dates/date-code";
import { findDateCodes } from "../../../server/src/compute/dates/find-date-codes";
import { judgeDateCode } from "../../../server/src/compute/dates/judge-date-code";
import { words } from "../../support/words";

const ERA = { from: 1978, to: 1983 };

describe("reading", () => {
  test.each([
    ["7844", "YYWW", 44, [1978]],
    [" 78.44 ", "YY.WW", 44, [1978]],
    ["78-44", "YY.WW", 44, [1978]],
    ["D7844A", "YYWW", 44, [1978]],
    ["6001", "YYWW", 1, [1960]],
    ["5952", "YYWW", 52, [2059]],
    ["0312", "YYWW", 12, [2003]],
    ["8153", "YYWW", 53, [1981]],
  ])("%j is %s, week %s of %j", (text, form, week, years) => {
    expect(readDateCode(text)).toMatchObject({ ok: true, form, week, years });
  });

  test("the century is said and why", () => {
    expect(readDateCode("7844")).toMatchObject({
      because:
        "Two digits are read as 1960 to 2059, so this is 1978 (no integrated circuit is older, from memory).",
    });
  });

  test.each([
    ["in the era", { era: ERA }, [1978], "1978 lies in the board's era, 1978 to 1983"],
    ["nearest to it", { era: { from: 1979, to: 1983 } }, [1978], "1978 is nearest"],
    ["two decades", { era: { from: 1968, to: 1980 } }, [1968, 1978], "1968 and 1978 lie in the board's era"],
    ["no era, up to the log's date", { latest: "1990-01-01" }, [1968, 1978, 1988], "leaves the decade open"],
    ["later than the log", { latest: "1966-01-01" }, [1968], "leaves the decade open"],
  ])("one digit: %s", (_, context, years, because) => {
    const code = readDateCode("844", context);
    expect(code).toMatchObject({ form: "YWW", week: 44, years });
    expect(code.ok && code.because).toContain(because);
  });

  test("week 53 narrows the decades of a single digit", () => {
    expect(readDateCode("153", { latest: "2000-01-01" })).toMatchObject({ years: [1981] });
    expect(readDateCode("053", { latest: "2000-01-01" })).toMatchObject({ years: [1970] });
  });

  test("a week 53 of a year without one is doubtful: a maker's weeks are not those of ISO 8601", () => {
    const code = readDateCode("7953");
    expect(code).toMatchObject({ ok: false, problem: "doubtful" });
    expect(!code.ok && code.reason).toContain("by ISO 8601 1979 had no week 53");
    // By ISO there is one, and 54 and 0 are no week by any count.
    expect(readDateCode("8153")).toMatchObject({ ok: true, week: 53 });
    expect(readDateCode("7954")).toMatchObject({ ok: false, problem: "impossible" });
  });

  test.each([
    ["7800", "would be week 0"],
    ["4478", "would be week 78; a year has weeks 1 to 52 or 53."],
    ["7899", "would be week 99; a year has weeks 1 to 52 or 53."],
  ])("%s is impossible", (text, reason) => {
    const code = readDateCode(text);
    expect(code).toMatchObject({ ok: false, problem: "impossible" });
    expect(!code.ok && code.reason).toContain(reason);
  });

  test.each(["", "12", "78444", "7.844", "8.44", "week 44", "7844ABC"])("%j is not a date code", (text) => {
    expect(readDateCode(text)).toMatchObject({ ok: false, problem: "unreadable" });
  });
});

describe("judging", () => {
  test.each([
    ["7844", "within-limits", "the board was made 1978 to 1983"],
    ["7650", "within-limits", "shortly before the board was made"],
    ["7544", "suspect", "3 years before the board was made"],
    ["8844", "suspect", "the board was made 1978 to 1983. The part was fitted later"],
    ["7953", "suspect", "no week 53"],
    ["2611", "impossible", "from 2026-03-09 on, but the log saw the part on 2026-03-08"],
    ["2610", "suspect", "fitted later"],
    ["844", "within-limits", "844 is week 44 of 1978"],
  ])("%s: %s", (text, verdict, sentence) => {
    const ruling = judgeDateCode(text, { era: ERA, latest: "2026-03-08" });
    expect(ruling).toMatchObject({ ok: true, verdict });
    expect(ruling.ok && words(ruling)).toContain(sentence);
  });

  test("no era, no judgement", () => {
    expect(judgeDateCode("7844")).toMatchObject({ verdict: "unjudged" });
  });

  test.each([
    ["chips", {}, '"chips" is not a date code'],
    ["7844", { latest: "2026-02-30" }, '"2026-02-30" is not a day'],
    ["7844", { era: { from: 1983, to: 1978 } }, "which is no span of years"],
    ["7844", { era: { from: Number.NaN, to: 1978 } }, "which is no span of years"],
  ])("refuses %s with %j", (text, context, reason) => {
    const ruling = judgeDateCode(text, context);
    expect(!ruling.ok && ruling.reason).toContain(reason);
  });
});

test("what is stamped on a day reads back as its week", () => {
  for (let year = 1970; year <= 1990; year += 1) {
    for (const day of ["01-01", "03-15", "12-28", "12-31"]) {
      const code = dateCodeOf(`${year}-${day}`);
      expect(judgeDateCode(code!, { latest: `${year}-${day}` })).toMatchObject({ verdict: "unjudged" });
    }
  }
  expect(dateCodeOf("1979-02-29")).toBeUndefined();
});

test.each([
  ["7931 to 8012", ["7931", "8012"]],
  ["78.44, 79.02 and 844", ["78.44", "79.02", "844"]],
  ["D7844A/7901", ["D7844A", "7901"]],
  ["all 7931-8012.", ["7931", "8012"]],
  ["SN74LS00N", []],
  ["3.5 V, 78.445", []],
  ["12 boards, 2026-03-02", []],
])("codes in %j", (text, codes) => {
  const found = findDateCodes(text);
  expect(found.map((code) => code.text)).toEqual(codes);
  for (const { text: code, start, end } of found) expect(text.slice(start, end)).toBe(code);
});
