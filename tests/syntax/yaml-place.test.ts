import fc from "fast-check";
import { expect, test } from "vitest";
import { parseYaml, pathAt } from "../../server/src/syntax/yaml";

/** `$0` is the cursor. Gives "where path [typed]" with marks for flow and own line. */
function at(fixture: string): string {
  const offset = fixture.indexOf("$0");
  const text = fixture.replace("$0", "");
  const place = pathAt(parseYaml(text, 50), 50 + offset);
  const typed = text.slice(place.span.start - 50, place.span.end - 50);
  const marks = `${place.flow ? " flow" : ""}${place.ownLine ? " own-line" : ""}`;
  return `${place.where} ${place.path.join("/")} [${typed}]${marks}`;
}

const BOARD = `id: regatta
rails:
  "+5V": { nominal: 5 V, tolerance: 5 % }
parts:
  U14:
    device: 74LS04
    fits: [7404, 74S04]
expected:
  - procedure: diode-check
    ref: U14
  - { procedure: supply-rails, rail: "+5V" }
`;

/** The board with the cursor behind the first `word`. */
const behind = (word: string) => at(BOARD.replace(word, `${word}$0`));

test("keys and values of a whole file", () => {
  expect(behind("nomin")).toBe("key rails/+5V/nominal [nominal] flow");
  expect(behind("nominal: 5")).toBe("value rails/+5V/nominal [5 V] flow");
  expect(behind('"+5V')).toBe('key rails/+5V ["+5V"]');
  expect(behind("U1")).toBe("key parts/U14 [U14]");
  expect(behind("device: 74LS04")).toBe("value parts/U14/device [74LS04]");
  expect(behind("74S0")).toBe("value parts/U14/fits/1 [74S04] flow");
  expect(behind("ref: U1")).toBe("value expected/0/ref [U14]");
  expect(behind("supply-rails")).toBe("value expected/1/procedure [supply-rails] flow");
});

test("space where something may be written", () => {
  expect(behind("id: ")).toBe("value id [regatta]");
  expect(at("id: $0\n")).toBe("value id []");
  expect(at("id:$0\n")).toBe("value id []");
  expect(at("rails:\n  A: { nominal: $0, tolerance: 5 % }\n")).toBe("value rails/A/nominal [] flow");
  expect(at("rails:\n  A: { nominal: 5 V, $0 }\n")).toBe("blank rails/A [] flow");
  expect(at("rails:\n  A: {$0}\n")).toBe("blank rails/A [] flow");
  expect(at("fits: [7404, $0]\n")).toBe("blank fits [] flow");
  expect(at("$0")).toBe("blank  []");
  expect(at("id: a\n$0")).toBe("blank  []");
});

test("a blank line belongs to the mapping its column says", () => {
  const file = (cursor: string) => at(`parts:\n  U14:\n    device: 7404\n${cursor}\nnets:\n  A: [U14.1]\n`);
  expect(file("    $0")).toBe("blank parts/U14 []");
  expect(file("  $0")).toBe("blank parts []");
  expect(file("$0")).toBe("blank  []");
  expect(file("      $0")).toBe("blank parts/U14 []");
  expect(at("parts:\n  U14:\n    $0")).toBe("blank parts/U14 []");
  expect(at("parts:\n  $0\nnets: {}\n")).toBe("blank parts []");
});

test("lists", () => {
  expect(at("expected:\n  - ref: U1\n    $0")).toBe("blank expected/0 []");
  expect(at("expected:\n  - ref: U1\n  - $0")).toBe("blank expected/1 []");
  expect(at("expected:\n  - ref: U1\n  - ref: U2\n    $0\n")).toBe("blank expected/1 []");
  expect(at("expected:\n- ref: U1\n- $0")).toBe("blank expected/1 []");
  expect(at("expected:\n- ref: U1\n- ref: U2\n  $0\nid: x\n")).toBe("blank expected/1 []");
  expect(at("expected:\n  - ref: U1\n  $0")).toBe("blank expected []");
});

test("half-typed words", () => {
  expect(at("rails:\n  A:\n    nominal: 5 V\n    tol$0\nid: x\n")).toBe("key rails/A/tol [tol]");
  expect(at("rails:\n  A:\n    nom$0\nid: x\n")).toBe("value rails/A [nom] own-line");
  expect(at("id: x\nboa$0\n")).toBe("key boa [boa]");
  expect(at("rails:\n  A: { nominal: 5 V, tol$0\nid: x\n")).toBe("key rails/A/tol [tol] flow");
  expect(at("rails:\n  A: { nominal: 5 V, $0\n  B: { nominal: 5 V }\n")).toBe("blank rails/A [] flow");
  expect(at('rails:\n  A:\n    nominal: "5$0\nid: x\n')).toBe('value rails/A/nominal ["5]');
});

test("CRLF and a byte order mark", () => {
  expect(at("\uFEFFparts:\r\n  U14:\r\n    device: 7404\r\n    $0\r\nid: x\r\n")).toBe("blank parts/U14 []");
  expect(at("\uFEFF$0")).toBe("blank  []");
});

test("any text and offset: an answer, its span inside the text", () => {
  const piece = fc.constantFrom(
    "a: ",
    "b:\n",
    "- ",
    "\n",
    "  ",
    "{",
    "}",
    "[",
    "]",
    '"',
    "x",
    ", ",
    "\r\n",
    "*a",
    "&a ",
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 30 }), fc.nat(), (pieces, seed) => {
      const text = pieces.join("");
      const offset = seed % (text.length + 1);
      const { span, path } = pathAt(parseYaml(text), offset);
      expect(span.start).toBeLessThanOrEqual(offset);
      expect(span.end).toBeGreaterThanOrEqual(offset);
      expect(span.end).toBeLessThanOrEqual(text.length);
      expect(path.every((step) => typeof step === "string" || Number.isInteger(step))).toBe(true);
    }),
    { numRuns: 1500 },
  );
});
