// The page as a browser's parser reads it (parse5 follows the parsing rules of the HTML standard and reports every
// parse error), by html-validate's standard rules (content models, attributes, ids, references) with none turned off,
// and what neither looks at: names of drawings, the order of headings, cells against columns. What a browser makes of
// it is looked at by tests/editor/scenarios/65-owner-page.
import { HtmlValidate } from "html-validate";
import { type DefaultTreeAdapterTypes, type ParserError, parse } from "parse5";
import { describe, expect, test } from "vitest";
import { ownerHtml, ownerReport } from "../../../server/src/report/owner";
import { demoLogs, demoText, openDemo } from "../../support/demo";

type Node = DefaultTreeAdapterTypes.ChildNode;
type Element = DefaultTreeAdapterTypes.Element;

async function pageOf(uri: string): Promise<string> {
  const service = await openDemo();
  service.open(uri, demoText(uri));
  return ownerHtml(ownerReport(service.view(uri)!));
}

function elementsIn(page: string): { elements: Element[]; errors: ParserError[] } {
  const errors: ParserError[] = [];
  const root = parse(page, { onParseError: (error) => errors.push(error), sourceCodeLocationInfo: true });
  const elements: Element[] = [];
  const visit = (node: Node): void => {
    if (!("tagName" in node)) return;
    elements.push(node);
    node.childNodes.forEach(visit);
  };
  root.childNodes.forEach(visit);
  return { elements, errors };
}

const validator = new HtmlValidate({ extends: ["html-validate:standard"] });

async function faultsIn(page: string): Promise<string[]> {
  const { results } = await validator.validateString(page);
  return results.flatMap(({ messages }) =>
    messages.map(({ ruleId, message, line, column }) => `${line}:${column} ${ruleId}: ${message}`),
  );
}

const attribute = ({ attrs }: Element, name: string): string | undefined =>
  attrs.find((each) => each.name === name)?.value;

test("the parser does report errors", () => {
  expect(elementsIn("<!DOCTYPE html><p a=1 a=2>").errors.length).toBeGreaterThan(0);
});

test("the validator does report faults", async () => {
  const page =
    "<!DOCTYPE html><html lang='en'><head><title>a</title></head><body><ul><p>b</p></ul></body></html>";
  expect((await faultsIn(page)).join("\n")).toContain("element-permitted-content");
});

describe.each(demoLogs.map(([uri]) => uri))("%s", (uri) => {
  test("has no parse error, and every element that opens is closed where it should be", async () => {
    const page = await pageOf(uri);
    const { elements, errors } = elementsIn(page);
    expect(errors.map(({ code, startLine, startCol }) => `${startLine}:${startCol} ${code}`)).toEqual([]);
    const VOID = new Set(["meta", "br", "img", "wbr"]);
    for (const { tagName, sourceCodeLocation } of elements) {
      // Nothing was made up by the parser, and nothing was closed by it.
      expect(sourceCodeLocation?.startTag ?? sourceCodeLocation, tagName).toBeTruthy();
      if (!VOID.has(tagName))
        expect(
          sourceCodeLocation?.endTag !== undefined ||
            /\/>$/.test(page.slice(sourceCodeLocation!.startOffset, sourceCodeLocation!.endOffset)),
          tagName,
        ).toBe(true);
    }
  });

  test("is valid", async () => {
    expect(await faultsIn(await pageOf(uri))).toEqual([]);
  });

  test("is named, ordered and tied together", async () => {
    const { elements } = elementsIn(await pageOf(uri));
    const named = (name: string) => elements.filter(({ tagName }) => tagName === name);
    expect(named("script")).toEqual([]);
    expect(named("h1")).toHaveLength(1);
    expect(named("main")).toHaveLength(1);
    expect(attribute(named("html")[0]!, "lang")).toBe("en");
    const ids = elements.flatMap((element) => attribute(element, "id") ?? []);
    expect(new Set(ids).size).toBe(ids.length);
    for (const drawing of named("svg")) expect(ids).toContain(attribute(drawing, "aria-labelledby"));
    for (const picture of named("img")) expect(attribute(picture, "alt")).toBeTruthy();
    const depths = elements.flatMap(({ tagName }) => /^h([1-6])$/.exec(tagName)?.[1] ?? []).map(Number);
    for (const [i, depth] of depths.entries()) expect(depth).toBeLessThanOrEqual((depths[i - 1] ?? 0) + 1);
    for (const row of named("tr")) {
      const cells = row.childNodes.filter((node) => "tagName" in node);
      const table = named("table").find((each) => elementsWithin(each).includes(row))!;
      const head = elementsWithin(table).filter((cell) => attribute(cell, "scope") === "col");
      expect(cells).toHaveLength(head.length);
    }
    expect(named("a").concat(named("link"), named("iframe"), named("object"))).toEqual([]);
  });
});

function elementsWithin(element: Element): Element[] {
  return element.childNodes.flatMap((node) => ("tagName" in node ? [node, ...elementsWithin(node)] : []));
}
