import { describe, expect, it } from "vitest";
import { refactorsAt } from "../../../server/src/features/refactor";
import {
  noLongerReference,
  takeAsReference,
  whyNoReference,
} from "../../../server/src/features/reference-job/mark";
import { applyEdits } from "../../../server/src/text/edits";
import { openWorld } from "../../support/workspace";

const TITLE = "\n# A board\n\n## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 0.58 |\n";

async function viewOf(text: string) {
  const { service } = await openWorld(`//- log.md\n${text}`);
  const view = service.view("mem:/ws/log.md");
  if (!view) throw new Error("not a log");
  return view;
}

/** The log after it was taken as the reference, which is then read again. */
async function taken(front: string): Promise<string> {
  const view = await viewOf(`${front}${TITLE}`);
  const edit = takeAsReference(view);
  if (!edit) throw new Error("nothing to write");
  const text = applyEdits(view.doc.text, [edit]);
  const after = await viewOf(text);
  expect(after.front).toEqual({ ...view.front, reference: true });
  expect(takeAsReference(after)).toBeUndefined();
  expect(text.endsWith(TITLE)).toBe(true);
  return text.slice(0, -TITLE.length);
}

describe("taking a job as the reference", () => {
  it("adds the key below the others, whatever stands there", async () => {
    expect(await taken("---\nmendlog: 1\nboard: example\n---\n")).toBe(
      "---\nmendlog: 1\nboard: example\nreference: true\n---\n",
    );
    expect(await taken("---\nmendlog: 1\nboard: example\nsymptoms:\n  - dark # all of it\n---\n")).toBe(
      "---\nmendlog: 1\nboard: example\nsymptoms:\n  - dark # all of it\nreference: true\n---\n",
    );
    expect(await taken("---\nmendlog: 1\nboard: example\n# the shelf's own\n\n---\n")).toBe(
      "---\nmendlog: 1\nboard: example\n# the shelf's own\n\nreference: true\n---\n",
    );
  });

  it("turns a key that says otherwise", async () => {
    expect(await taken("---\nmendlog: 1\nreference: false # not yet\nboard: example\n---\n")).toBe(
      "---\nmendlog: 1\nreference: true # not yet\nboard: example\n---\n",
    );
    expect(await taken("---\nmendlog: 1\nreference:\nboard: example\n---\n")).toBe(
      "---\nmendlog: 1\nreference: true\nboard: example\n---\n",
    );
    expect(await taken('---\nmendlog: 1\nreference: "yes"\nboard: example\n---\n')).toBe(
      "---\nmendlog: 1\nreference: true\nboard: example\n---\n",
    );
  });

  it("keeps the line ends of the log", async () => {
    const view = await viewOf("---\r\nmendlog: 1\r\nboard: example\r\n---\r\n");
    expect(applyEdits(view.doc.text, [takeAsReference(view)!])).toBe(
      "---\r\nmendlog: 1\r\nboard: example\r\nreference: true\r\n---\r\n",
    );
  });

  it("says why there is nothing to be the reference of", async () => {
    const view = await viewOf(`---\nmendlog: 1\n---\n${TITLE}`);
    expect(takeAsReference(view)).toBeUndefined();
    expect(whyNoReference(view)).toContain("does not say which board it is of");
    const open = await viewOf("---\nmendlog: 1\nboard: example\n");
    expect(takeAsReference(open)).toBeUndefined();
    expect(whyNoReference(open)).toContain("never closes");
  });
});

describe("taking it back", () => {
  const back = async (front: string) => {
    const view = await viewOf(`${front}${TITLE}`);
    const edit = noLongerReference(view);
    return edit && applyEdits(view.doc.text, [edit]).slice(0, -TITLE.length);
  };

  it("takes the line out, and keeps one that says more", async () => {
    expect(await back("---\nmendlog: 1\nreference: true\nboard: example\n---\n")).toBe(
      "---\nmendlog: 1\nboard: example\n---\n",
    );
    expect(await back("---\nmendlog: 1\nboard: example\nreference: true # plays\n---\n")).toBe(
      "---\nmendlog: 1\nboard: example\nreference: false # plays\n---\n",
    );
    expect(await back("---\nmendlog: 1\nreference: false\nboard: example\n---\n")).toBeUndefined();
  });

  it("is the way there and back again, to the letter", async () => {
    const front = "---\nmendlog: 1\nboard: example\nsymptoms: [dark]\n---\n";
    expect(await back(await taken(front))).toBe(front);
  });
});

describe("what is offered", () => {
  const titles = async (front: string, at: string) => {
    const view = await viewOf(`${front}${TITLE}`);
    const start = view.doc.text.indexOf(at);
    return refactorsAt(view, { start, end: start })
      .filter(({ title }) => /reference|limits/.test(title))
      .map(({ title, disabled }) => (disabled === undefined ? title : `${title} (${disabled.slice(0, 45)})`));
  };
  const BOARD = "---\nmendlog: 1\nboard: example\n---\n";

  it.each(["board:", "A board"])("stands in the front matter and on the title: %s", async (at) => {
    expect(await titles(BOARD, at)).toEqual(["Take this job as the reference"]);
  });

  it("stands nowhere else", async () => {
    expect(await titles(BOARD, "0.58")).toEqual([]);
  });

  it("is to take it back and to write the limits, once it is one", async () => {
    const front = BOARD.replace("board", "reference: true\nboard");
    expect(await titles(front, "board:")).toEqual([
      "No longer take this job as the reference",
      "Propose these limits for the board file",
    ]);
    expect(await titles(front.replace("example", "nobody"), "board:")).toEqual([
      "No longer take this job as the reference",
    ]);
  });

  it("says why not where no board is named", async () => {
    expect(await titles("---\nmendlog: 1\n---\n", "mendlog:")).toEqual([
      "Take this job as the reference (The log does not say which board it is of. Wr)",
    ]);
  });
});
