import { describe, expect, test } from "vitest";
import { openWorld } from "../../support/workspace";
import { board } from "./board";
import { completions, labels, taking } from "./support";

describe("keys", () => {
  test("an empty file begins with what a board must have, and says so", async () => {
    const items = await completions("$0");
    expect(items.slice(0, 4).map(({ label }) => label)).toEqual([
      "a new board",
      "mendlog-board",
      "id",
      "title",
    ]);
    expect(items[1]).toMatchObject({ newText: "mendlog-board: 1", description: "Format version · required" });
    expect(items[2]?.documentation).toContain("Short name that logs use");
    expect(items[4]?.description).not.toContain("required");
  });

  test.each([
    ["sound.board.yaml", "a new board"],
    ["mendlog.shop.yaml", "a new shop file"],
  ])("an empty %s is laid out whole, with nothing to find fault with", async (name, label) => {
    const whole = (await completions(`//- ${name}\n$0`)).find((item) => item.label === label);
    const text = whole?.newText ?? "";
    expect(text).toContain("title: ");
    const { service } = await openWorld(`//- ${name}\n${text}`);
    expect(service.findings(`mem:/ws/${name}`)).toEqual([]);
    expect(await labels(`//- ${name}\n$0${text}`)).not.toContain(label);
  });

  test("names that such a file usually has stand where none is written yet", async () => {
    const head = "mendlog-board: 1\nid: x\ntitle: X\n";
    expect(await labels(`${head}rails:\n  $0`)).toEqual(["+5V", "+12V", "-5V", "-12V"]);
    expect(await labels(`${head}parts:\n  U7: { device: 7404 }\n  $0\nnets:\n  GND: [U7.7]\n`)).toEqual(
      expect.arrayContaining(["U8", "R1", "C1"]),
    );
    expect(await taking(`${head}rails:\n  $0`, "+5V", "snippet")).toBe(
      "  +5V: { nominal: $1, tolerance: $2 \\}",
    );
  });

  test("a key is followed by the list of what may stand behind it, where that is known", async () => {
    const again = async (text: string) =>
      (await completions(text)).filter(({ thenSuggest }) => thenSuggest).map(({ label }) => label);
    expect(await again(board().replace("device: 74LS04", "$0"))).toEqual(
      expect.arrayContaining(["device", "fits"]),
    );
    expect(await again(board().replace("device: 74LS04", "$0"))).not.toContain("value");
  });

  test("those already there are not offered, the one being typed is", async () => {
    const found = await labels(board("sym$0"));
    expect(found).toContain("symptoms");
    expect(found).not.toContain("rails");
    expect(await labels(board().replace("device: 74LS04", "dev$0ice: 74LS04"))).toContain("device");
  });

  test.each([
    ["block, first line", "symptoms:\n  blank:\n    $0\n"],
    ["block, between others", "symptoms:\n  blank:\n    title: Blank\n    no$0\n    circuits: [reset]\n"],
    [
      "block, last line, a sister below",
      "symptoms:\n  blank:\n    title: Blank\n    ci$0\n  dim: { title: Dim }\n",
    ],
    ["braces, empty", "symptoms:\n  blank: { $0 }\n"],
    ["braces, behind a comma", "symptoms:\n  blank: { title: Blank, $0 }\n"],
    ["braces, a word begun", "symptoms:\n  blank: { title: Blank, no$0 }\n"],
    ["braces never closed", "symptoms:\n  blank: { title: Blank, no$0\n  dim: { title: Dim }\n"],
    ["nothing behind the colon yet", "symptoms:\n  blank: $0\n"],
  ])("in %s", async (_, more) => {
    expect(await labels(board(more))).toEqual(expect.arrayContaining(["note", "shows"]));
  });

  test("CRLF and a comment behind the line change nothing", async () => {
    const text = board("symptoms:\n  blank:\n    title: Blank # at power-up\n    n$0\n").replaceAll(
      "\n",
      "\r\n",
    );
    expect(await labels(text)).toEqual(["shows", "circuits", "inputs", "note"]);
  });

  test("what is missing around a key is written with it", async () => {
    expect(await taking(board("symptoms:\n  blank: $0\n"), "title")).toBe("  blank: { title:  }");
    expect(await taking(board("symptoms:\n  blank:$0\n"), "title", "snippet")).toBe(
      "  blank: { title: $1 \\}",
    );
    expect(await taking(board("expected: $0\n"), "rail")).toBe("expected: [{ rail:  }]");
    expect(await taking(board("expected:\n  - $0\n"), "rail")).toBe("  - rail: ");
    expect(await taking(board("expected:\n  -$0\n"), "rail")).toBe("  - rail: ");
    expect(await taking(board("expected:\n  $0\n"), "rail")).toBe("  - rail: ");
    expect(await taking(board("proving: [{ id: x, $0 }]\n"), "matrix")).toBe(
      "proving: [{ id: x, matrix:  }]",
    );
  });

  test("a snippet brings the brackets and the keys that its value must have", async () => {
    expect(await taking(board("$0"), "matrices", "snippet")).toBe("matrices:\n  $1");
    expect(await taking(board("$0"), "era", "snippet")).toBe("era: { from: $1, to: $2 \\}");
    expect(await taking(board("symptoms:\n  blank: { $0 }"), "circuits", "snippet")).toBe(
      "  blank: { circuits: [$1] }",
    );
    expect(await taking(board().replace("circuit: reset, loc", "cir$0: reset, loc"), "circuit")).toContain(
      "device: 74LS04, circuit: reset, loc",
    );
  });
});

describe("names of the writer's own", () => {
  test("nets that are named elsewhere and not yet listed", async () => {
    const text = board(
      "matrices:\n  sw: { kind: switch, title: S, rows: [ROW_1, ROW_2], columns: [COL_1] }\n",
    );
    const items = await completions(text.replace("  GND: [", "  $0\n  GND: ["));
    expect(items.map(({ label }) => label)).toEqual(["COL_1", "ROW_2"]);
    expect(items[1]).toMatchObject({ newText: "ROW_2: ", snippet: "ROW_2: [$1]" });
  });

  test("parts that stand on a net and are not described", async () => {
    const text = board()
      .replace("ROW_1: [U14.2,", "ROW_1: [U14.2, U16.4, U16.5,")
      .replace("  U8:", "  $0\n  U8:");
    const items = await completions(text);
    expect(items.map(({ label, description }) => [label, description])).toEqual([
      ["U16", "named in 2 places, not yet here"],
    ]);
  });

  test("switch banks are switches, and a setting's patterns are as long as it has switches", async () => {
    expect(await labels(board("switch-banks:\n  $0\n"))).toEqual(["SW1"]);
    const setting =
      'switch-banks:\n  SW1:\n    settings:\n      - { title: Coins, switches: [3, 4], meaning: { "00": one, $0 } }\n';
    const items = await completions(board(setting));
    expect(items.map(({ label }) => label)).toEqual(["01", "10", "11"]);
    expect(items[0]).toMatchObject({ description: "switch 3 off, switch 4 on" });
  });

  test("a device's pins that are not yet described", async () => {
    const device = `//- own.device.yaml
mendlog-device: 1
id: X1
package: { name: DIP-4, pins: 4 }
pins:
  1: { name: A, direction: input }
  3: { name: B, direction: output }
  $0
`;
    expect(await labels(device)).toEqual(["2", "4"]);
    expect(await taking(device, "2", "snippet")).toBe("  2: { name: $1, direction: $2 \\}");
  });
});

describe("nothing", () => {
  test.each([
    ["in a comment on its own line", "# circuits $0\n"],
    ["in a comment behind a value", "symptoms:\n  blank: { title: Blank } # then $0\n"],
    ["in text of several lines", "symptoms:\n  blank:\n    note: |\n      # one\n      $0two\n      three\n"],
    ["behind brackets that are closed", "symptoms:\n  blank: { title: Blank }$0\n"],
    ["under a key the format does not have", "nonsense:\n  blank: { $0 }\n"],
  ])("%s", async (_, more) => {
    expect(await labels(board(more))).toEqual([]);
  });

  test("a # within a text is no comment", async () => {
    expect(await labels(board('symptoms:\n  blank: { title: "no # here", circuits: [$0] }\n'))).toEqual([
      "reset",
      "display",
    ]);
  });
});
