// Photographs of a log: which they are, of before or after, and which belong together.
import { describe, expect, test } from "vitest";
import { hoverLog } from "../../server/src/features/hover";
import { photographs } from "../../server/src/log/photographs";
import { readBody } from "../support/log";
import { openWorld } from "../support/workspace";

const told = (body: string) => {
  const { all, pairs } = photographs(readBody(body));
  return {
    all: all.map(({ caption, path, when }) => [path, caption, when ?? ""].join(" | ")),
    pairs: pairs.map(({ before, after, of }) => `${of}: ${before.path} > ${after.path}`),
  };
};

describe("what is a photograph", () => {
  test("an image that leads to a file, with its caption in plain words", () => {
    expect(
      told("![U14 *as it came*](photos/018-u14.jpg)\n\n![](<a b.png>)\n\n![x](photos/a%20c.jpg)\n").all,
    ).toEqual(["photos/018-u14.jpg | U14 as it came | ", "a b.png |  | ", "photos/a c.jpg | x | "]);
  });

  test.each(["![a](https://example.com/a.jpg)", "![a](data:image/png;base64,AAAA)", "[a](a.jpg)", "![a]()"])(
    "%s is none",
    (text) => {
      expect(told(`${text}\n`).all).toEqual([]);
    },
  );

  test("a caption with markup in it stays words", () => {
    expect(told("![<b>U14</b> `x` | y](a.jpg)\n").all).toEqual(["a.jpg | <b>U14</b> x | y | "]);
  });
});

describe("before and after", () => {
  test("by the caption first, else by the heading", () => {
    const { all } = told(
      "## Inspection before repair\n\n![U14](a.jpg)\n\n![U14 after cleaning](b.jpg)\n\n## Inspection after repair\n\n![U14](c.jpg)\n",
    );
    expect(all).toEqual([
      "a.jpg | U14 | before",
      "b.jpg | U14 after cleaning | after",
      "c.jpg | U14 | after",
    ]);
  });

  test("those of one caption are a pair, each in one pair only", () => {
    expect(
      told(
        "![Battery corner, before](a.jpg)\n\n![J3 before](b.jpg)\n\n![battery corner (after the repair)](c.jpg)\n\n![J3 after](d.jpg)\n\n![J3 after](e.jpg)\n\n![J9 before](f.jpg)\n",
      ).pairs,
    ).toEqual(["Battery corner: a.jpg > c.jpg", "J3: b.jpg > d.jpg"]);
  });
});

describe("the hover", () => {
  const opened = async (body: string) => {
    const text = `---\nmendlog: 1\n---\n\n${body}`;
    const { service } = await openWorld(`//- log.md\n${text}//- u14.jpg\na picture\n//- u14b.jpg\nanother\n`);
    const uri = "mem:/ws/log.md";
    await service.prepareImages(uri, text);
    const view = service.view(uri)!;
    return {
      hover: (words: string) => hoverLog(view, text.indexOf(words) + 3),
      codes: service.findings(uri).filter(({ code }) => code === "photo-not-there"),
    };
  };

  test("shows what is there, and both of a pair", async () => {
    const { hover, codes } = await opened("![U14 before](u14.jpg)\n\n![U14 after](u14b.jpg)\n");
    expect(codes).toEqual([]);
    expect(hover("![U14 before")).toMatchObject({
      markdown: expect.stringContaining("Before and after of U14."),
      photographs: [
        { path: "u14.jpg", alt: "U14 before" },
        { path: "u14b.jpg", alt: "U14 after" },
      ],
    });
  });

  test("shows nothing that is absent or outside, and says so", async () => {
    const { hover, codes } = await opened("![a](gone.jpg)\n\n![b](../../secret.jpg)\n");
    expect(codes.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^There is no file "gone.jpg"/),
      expect.stringMatching(/^"..\/..\/secret.jpg" lies outside/),
    ]);
    expect(hover("![a]")).toMatchObject({ photographs: [] });
    expect(hover("![b]")?.photographs).toEqual([]);
  });
});
