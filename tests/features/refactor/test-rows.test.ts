import { describe, expect, it, test } from "vitest";
import { refactorsAt } from "../../../server/src/features/refactor";
import { applyEdits } from "../../../server/src/text/edits";
import { openAt, openWorld } from "../../support/workspace";

const log = (body: string, eol = "\n") =>
  `---\nmendlog: 1\nboard: example\n---\n\n${body}`.replaceAll("\n", eol);

async function offered(body: string, eol?: string) {
  const { view, offset } = await openAt(log(body, eol));
  return {
    view,
    actions: refactorsAt(view, { start: offset, end: offset }).filter(({ title }) =>
      title.startsWith("Insert the"),
    ),
  };
}

async function inserted(body: string, eol?: string): Promise<string> {
  const { view, actions } = await offered(body, eol);
  expect(actions).toHaveLength(1);
  return applyEdits(view.doc.text, actions[0]!.edits);
}

const LONG = `## Switch matrix

| Row | Column | Switch  | Result | Note |
|-----|--------|---------|--------|------|
| 1   | 1      | Co$0in    | ok     |      |
`;

describe("the rows that prove a matrix", () => {
  it("go below a long table, in its own columns", async () => {
    expect(await inserted(LONG)).toContain(`| 1   | 1      | Coin    | ok     |      |
| 2   | 3      | Bell    |        |      |
| 3   | 2      | Service |        |      |
`);
  });

  it("are a table of their own below a grid, and are read as one", async () => {
    const text = await inserted(
      "## Switch matrix$0\n\n| Row / column | 1 | 2 | 3 |\n|-|-|-|-|\n| 1 | ok | ok | dead |\n",
    );
    expect(text).toContain("| 1 | ok | ok | dead |\n\n| Row | Column |");
    expect(text).toContain("| 2   | 3      | Bell   |        |");
    const { service, files } = await openWorld(text.replaceAll(/\| +\|$/gm, "| ok |"));
    expect(service.findings(files[0]!.uri).filter(({ code }) => code === "matrix-unproven")).toEqual([]);
  });

  it("keep CR LF", async () => {
    const text = await inserted(LONG, "\r\n");
    expect(text.split("\r\n").length).toBe(text.split("\n").length);
  });

  it("are not offered twice, elsewhere, or where all is proven", async () => {
    const again = (await inserted(LONG)).replace("Coin", "Co$0in").replace(/^---[\s\S]*?---\n\n/, "");
    expect((await offered(again)).actions).toEqual([]);
    expect((await offered(`${LONG.replace("$0", "")}\n## Notes\n\nBes$0ide.\n`)).actions).toEqual([]);
    const grid =
      "## Switch matrix$0\n\n| Row / column | 1 | 2 | 3 |\n|-|-|-|-|\n| 1 | ok | ok | ok |\n| 2 | ok | | |\n| 3 | ok | | |\n";
    expect((await offered(grid)).actions).toEqual([]);
  });
});

test("a reserved crossing is never among them", async () => {
  const text = await inserted(
    "## Switch matrix$0\n\n| Row | Column | Result |\n|-|-|-|\n| 1 | 1 | ok |\n| 2 | 2 | ok |\n",
  );
  // Row 3 and column 3 meet at the reserved crossing, so they take two.
  expect(text).not.toMatch(/\| *3 *\| *3 *\|/);
  expect(text.match(/^\| *\d.*$/gm)).toHaveLength(4);
});
