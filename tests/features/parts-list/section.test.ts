import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { partsListActions } from "../../../server/src/features/parts-list";
import type { LogView } from "../../../server/src/features/view";
import { partsSections } from "../../../server/src/log/parts-section";
import type { Service } from "../../../server/src/service";
import { applyEdits } from "../../../server/src/text/edits";
import { demoLogs, openDemo } from "../../support/demo";
import { openWorld } from "../../support/workspace";

const WORK = exampleLog(`# Example

Prose.

## Resistance

| Ref | Reading |
|-----|---------|
| R12 | 12k     |

## Work done

| Ref | Action   | Part   | Note     |
|-----|----------|--------|----------|
| U14 | replaced | 74LS04 | socketed |
`);

const uri = "mem:/ws/log.md";
const viewOf = (service: Service, text: string, at = uri): LogView => {
  service.open(at, text);
  const view = service.view(at);
  if (!view) throw new Error("no log");
  return view;
};
const START = { start: 6, end: 6 };
const offered = (view: LogView, at = START) => partsListActions(view, at);
/** The text after the action of this title, or undefined where it is not offered. */
const taking = (view: LogView, title: string, at = START): string | undefined => {
  const action = offered(view, at).find((one) => one.title === title);
  return action && applyEdits(view.doc.text, action.edits);
};
const WRITE = "Write the parts list";
const UPDATE = "Update the parts list";
const OVERWRITE = "Overwrite the edited parts list";
const REMOVE = "Take the parts list out";

const world = async () => (await openWorld(WORK)).service;

describe("the parts list in a log", () => {
  test("is written at the end with what was disproved and what was fitted", async () => {
    const service = await world();
    const text = taking(viewOf(service, WORK), WRITE);
    expect(text?.startsWith(WORK)).toBe(true);
    expect(text?.slice(WORK.length).replace(/(<!-- mendlog-parts )\S+/, "$1MARK")).toMatchInlineSnapshot(`
      "
      ## Parts list

      <!-- mendlog-parts MARK written by Mendlog; edits between these two comments are noticed before it is written again -->

      **To fit** (suspected is not disproved: take the next reading first)

      | Part | Pieces | For | Package | On the shelf | Order | Why                          |
      |------|--------|-----|---------|--------------|-------|------------------------------|
      | 4k7  | 1      | R12 |         | not listed   | 1     | R12 failed: R12's resistance |

      - 4k7: look for 4.7 kΩ (E3)

      **Fitted**

      | Part   | Pieces | At  | Package | Socket   |
      |--------|--------|-----|---------|----------|
      | 74LS04 | 1      | U14 | DIP-14  | socketed |

      **Used up**

      - desoldering braid: taking parts off; ventilate
      - solder: new joints; ventilate, and wash hands: it may hold lead
      - flux: new joints and braid; ventilate, its fumes irritate
      - isopropyl alcohol: flux off the board; away from heat and flame

      Sockets and what is used up: common practice, no source.

      <!-- mendlog-parts-end -->
      "
    `);
  });

  test("is not read back: it changes nothing that is found or remembered", async () => {
    const service = await world();
    const codes = (text: string) => {
      service.open(uri, text);
      return service.findings(uri).map(({ code, span }) => [code, span]);
    };
    const before = codes(WORK);
    const text = taking(viewOf(service, WORK), WRITE) ?? "";
    expect(codes(text)).toEqual(before);
    const view = viewOf(service, text);
    expect(view.doc.blocks.flatMap(({ block }) => block.tables).length).toBe(2);
    expect(offered(view).map(({ title }) => title)).toEqual([REMOVE]);
  });

  test("is brought up to date after the log changed", async () => {
    const service = await world();
    const text = taking(viewOf(service, WORK), WRITE) ?? "";
    const changed = text.replace(
      "| U14 | replaced | 74LS04 | socketed |",
      "| U15 | replaced | 74LS04 |          |",
    );
    const view = viewOf(service, changed);
    expect(offered(view).map(({ title }) => title)).toEqual([UPDATE, REMOVE]);
    const updated = taking(view, UPDATE) ?? "";
    expect(updated).toMatch(/\| 74LS04 +\| 1 +\| U15 +\| DIP-14 +\| no socket noted at U15 +\|/);
    expect(taking(viewOf(service, updated), UPDATE)).toBeUndefined();
  });

  test("edited by hand it is overwritten only where that is asked for, and not taken out", async () => {
    const service = await world();
    const text = taking(viewOf(service, WORK), WRITE) ?? "";
    const edited = text.replace("**Fitted**", "**Fitted**, and the owner paid for it");
    const view = viewOf(service, edited);
    expect(partsSections(view.doc).sections[0]?.edited).toBe(true);
    expect(offered(view).map(({ title }) => title)).toEqual([OVERWRITE]);
    expect(taking(view, OVERWRITE)).toBe(text);
  });

  test.each([
    ["line ends", (text: string) => text.replaceAll("\n", "\r\n")],
    [
      "a formatter's padding",
      (text: string) => text.replaceAll(/ {2,}\|/g, " |").replaceAll(/-{4,}/g, "---"),
    ],
  ])("%s are no edit", async (_what, change) => {
    const service = await world();
    const text = change(taking(viewOf(service, WORK), WRITE) ?? "");
    expect(partsSections(viewOf(service, text).doc).sections.map(({ edited }) => edited)).toEqual([false]);
  });

  test("nothing is offered where a comment is alone, where there are two lists, or elsewhere", async () => {
    const service = await world();
    const text = taking(viewOf(service, WORK), WRITE) ?? "";
    const section = text.slice(text.indexOf("<!--"), text.lastIndexOf("-->") + 3);
    expect(offered(viewOf(service, text.replace("<!-- mendlog-parts-end -->", "")))).toEqual([]);
    expect(offered(viewOf(service, `${text}\n${section}\n`))).toEqual([]);
    expect(offered(viewOf(service, text.replace("**Fitted**", "## Mine")))).toEqual([]);
    const prose = WORK.indexOf("Prose.");
    expect(offered(viewOf(service, WORK), { start: prose, end: prose })).toEqual([]);
    expect(offered(viewOf(service, `${WORK}\n\`\`\`\nan open fence\n`))).toEqual([]);
  });

  test("words of the log cannot break out of it", async () => {
    const service = await world();
    const nasty = WORK.replace("| 74LS04 | socketed |", "| a --> <script> `x` \\| # | |");
    const text = taking(viewOf(service, nasty), WRITE) ?? "";
    const view = viewOf(service, text);
    expect(partsSections(view.doc)).toMatchObject({ sections: [{ edited: false }], loose: [] });
    expect(text.slice(nasty.length)).not.toContain("<script>");
    expect(taking(view, REMOVE)).toBe(nasty);
  });
});

describe("every other byte", () => {
  const bodies = fc.array(
    fc.constantFrom(
      "# Title",
      "## Work done",
      "| Ref | Action | Part |",
      "|---|---|---|",
      "| U14 | replaced | 74LS04 |",
      "| C5 | removed | |",
      "## Resistance",
      "| Ref | Reading |",
      "|---|---|",
      "| R12 | 12k |",
      "",
      "prose ❤ 𝄞",
      "<!-- a comment -->",
      "> quote",
      "- item",
      "  trailing  ",
      "```",
      "<div>",
    ),
    { maxLength: 25 },
  );

  test("stays as it was: written, brought up to date, taken out again", async () => {
    const service = await world();
    let written = 0;
    fc.assert(
      fc.property(
        bodies,
        fc.constantFrom("\n", "\r\n"),
        fc.boolean(),
        fc.constantFrom("", "\n", "\n\n"),
        (lines, eol, bom, end) => {
          const text = `${bom ? "\uFEFF" : ""}${exampleLog(lines.join("\n") + end).replaceAll("\n", eol)}`;
          const first = taking(viewOf(service, text), WRITE);
          // An open fence or HTML block at the end would swallow it.
          if (first === undefined) return;
          written++;
          expect(first.startsWith(text)).toBe(true);
          if (eol === "\r\n") expect(first.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
          const stands = viewOf(service, first);
          expect(partsSections(stands.doc)).toMatchObject({ sections: [{ edited: false }], loose: [] });
          expect(taking(stands, UPDATE)).toBeUndefined();
          expect(taking(stands, REMOVE)).toBe(text);
          // Text typed below and a fact changed above.
          const below = `${first}${eol}More.${eol}`;
          const changed = below.replace("| U14 | replaced", "| U15 | replaced");
          const later = taking(viewOf(service, changed), UPDATE);
          if (later !== undefined) {
            const cut = (whole: string) => {
              const { span } = partsSections(viewOf(service, whole).doc).sections[0] ?? {
                span: { start: 0, end: 0 },
              };
              return [whole.slice(0, span.start), whole.slice(span.end)];
            };
            expect(cut(later)).toEqual(cut(changed));
          }
          expect(taking(viewOf(service, below), REMOVE)).toBe(`${text}${eol}More.${eol}`);
        },
      ),
      { numRuns: 150 },
    );
    expect(written).toBeGreaterThan(40);
  });

  test("in the demo's logs too", async () => {
    const service = await openDemo();
    for (const [at, text] of demoLogs) {
      const first = taking(viewOf(service, text, at), WRITE);
      expect(first?.startsWith(text), at).toBe(true);
      expect(taking(viewOf(service, first ?? "", at), REMOVE), at).toBe(text);
    }
  });
});
