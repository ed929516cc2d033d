// Bill and bench sheet as pages: no parse error by the HTML standard, and html-validate's standard rules with none off.
import { HtmlValidate } from "html-validate";
import { parse } from "parse5";
import { describe, expect, test } from "vitest";
import { writeBill } from "../../../server/src/report/bill";
import { writeSheet } from "../../../server/src/report/sheet";
import { demoLogs, demoText, openDemo } from "../../support/demo";

const validator = new HtmlValidate({ extends: ["html-validate:standard"] });
const WRITERS = { bill: writeBill, sheet: writeSheet } as const;

describe.each(["bill", "sheet"] as const)("the %s", (paper) => {
  test.each(demoLogs.map(([uri]) => uri))("of %s is a valid page", async (uri) => {
    const service = await openDemo();
    service.open(uri, demoText(uri));
    const text = WRITERS[paper](service.view(uri)!, "html");
    const errors: string[] = [];
    parse(text, { onParseError: ({ code, startLine }) => errors.push(`${startLine} ${code}`) });
    expect(errors).toEqual([]);
    const { results } = await validator.validateString(text);
    expect(
      results.flatMap(({ messages }) =>
        messages.map(({ ruleId, message, line }) => `${line} ${ruleId}: ${message}`),
      ),
    ).toEqual([]);
    expect(text).not.toContain("<script");
    expect(text.match(/<h1>/g)).toHaveLength(1);
  });
});
