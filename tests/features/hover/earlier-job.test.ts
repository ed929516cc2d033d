import { expect, test } from "vitest";
import comebackNotLinked from "../../../server/src/checks/comeback-not-linked";
import { definitionInLog } from "../../../server/src/features/definition";
import { hoverLog } from "../../../server/src/features/hover";
import { applyEdits } from "../../../server/src/text/edits";
import { readable } from "../../support/features";
import { openWorld } from "../../support/workspace";

const HERE = "mem:/ws/now.md";
const EARLIER = `//- old.md
---
mendlog: 1
job: 2025-081
board: example
serial: "01873"
owner: A <b> Sample
received: 2025-09-01
returned: 2025-09-20
stage: returned
---

# Row 7 dead

## Work done

| Ref | Action   | Part   |
|-----|----------|--------|
| U14 | replaced | 74LS14 |
`;
const now = (front: string) => `${EARLIER}//- now.md
---
mendlog: 1
job: 2026-014
board: example
serial: "01873"
received: 2026-03-02
${front}---
`;

test("over comeback-of stands what was done then, and from it one goes to the earlier log", async () => {
  const { service } = await openWorld(now("comeback-of: 2025-081\n"));
  const view = service.view(HERE)!;
  const at = view.doc.text.indexOf("2025-081") + 2;
  const { markdown } = hoverLog(view, at)!;
  expect(readable(markdown)).toMatchInlineSnapshot(`
    "**Job 2025-081**: Row 7 dead

    - board: example 01873
    - owner: A \\<b\\> Sample
    - received: 2025-09-01
    - returned: 2025-09-20

    What was done then:

    - U14 replaced (74LS14)"
  `);
  expect(definitionInLog(view, at)?.targets).toEqual([{ uri: "mem:/ws/old.md", span: { start: 0, end: 0 } }]);
});

test("an unknown earlier job says what the field is, and leads nowhere", async () => {
  const { service } = await openWorld(now("comeback-of: 2020-001\n"));
  const view = service.view(HERE)!;
  const at = view.doc.text.indexOf("2020-001") + 2;
  expect(hoverLog(view, at)?.markdown).toContain("Comeback of");
  expect(definitionInLog(view, at)).toBeUndefined();
});

test.each(["\n", "\r\n"])("the earlier job is written into the front matter, line ends %j", async (eol) => {
  const { service } = await openWorld(now("stage: received\n"));
  service.open(HERE, service.text(HERE)!.replaceAll("\n", eol));
  const finding = service.findings(HERE).find(({ code }) => code === comebackNotLinked.code)!;
  const [fix] = service.fixes(HERE, finding);
  const text = applyEdits(service.text(HERE)!, fix!.edits);
  expect(text).toContain(`stage: received${eol}comeback-of: 2025-081${eol}---${eol}`);
  service.open(HERE, text);
  expect(service.findings(HERE)).toEqual([]);
});
