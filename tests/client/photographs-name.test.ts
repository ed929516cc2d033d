// What a photograph that is pasted into a log is called, and how it is linked.
import { describe, expect, test } from "vitest";
import { endingOf, freeName, linkSnippet, stemOf, subjectAbove } from "../../client/src/photographs/name";

describe("the name", () => {
  test.each([
    ["---\nmendlog: 1\njob: 2026-018\n---\n", "a.md", "2026-018"],
    ['---\njob: "2026/018 B" # second\n---\n', "a.md", "2026-018-B"],
    ["---\nmendlog: 1\n---\njob: 7\n", "my log.md", "my-log"],
    ["---\njob: ../../etc\n---\n", "a.md", "etc"],
    ["no front matter", "...md", "photo"],
  ])("%j in %s begins with %s", (text, file, stem) => {
    expect(stemOf(text, file)).toBe(stem);
  });

  test("has the part of its line, else of the heading above", () => {
    expect(subjectAbove(["## Inspection U14", "text of U15", ""])).toBe("U14");
    expect(subjectAbove(["## Inspection U14", "J3 is "])).toBe("J3");
    expect(subjectAbove(["## Inspection", "", ""])).toBeUndefined();
  });

  test("takes the first number that nobody has, in whatever case", () => {
    expect(freeName("018", "U14", "jpg", new Set())).toBe("018-u14-1.jpg");
    expect(freeName("018", "U14", "jpg", new Set(["018-u14-1.jpg", "018-u14-2.jpg"]))).toBe("018-u14-3.jpg");
    expect(freeName("018", undefined, "png", new Set())).toBe("018-1.png");
  });

  test("only pictures that a report can show are taken", () => {
    expect(endingOf("image/jpeg")).toBe("jpg");
    expect(endingOf("image/svg+xml")).toBeUndefined();
    expect(endingOf("text/html")).toBeUndefined();
  });

  test("the link has its caption ready to be typed", () => {
    expect(linkSnippet("photos/018-u14-1.jpg", "U14")).toBe(`![${"$"}{1:U14}](photos/018-u14-1.jpg)`);
    expect(linkSnippet("photos/a$b.jpg", undefined)).toBe(`![${"$"}{1:what it shows}](photos/a\\$b.jpg)`);
  });
});
