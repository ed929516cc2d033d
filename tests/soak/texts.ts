// Texts that nobody meant to write: cut, doubled, mixed and spoilt ones, from texts that somebody did.

/** From 0 to 1, the same for the same seed. */
export type Draw = () => number;

export const nat = (draw: Draw, below: number): number => Math.floor(draw() * below);
export const oneOf = <T>(draw: Draw, all: readonly T[]): T => all[nat(draw, all.length)]!;

/** What is typed, pasted and left half done. */
const PIECES: readonly string[] = [
  ..."|-:#`<>[]{}&*\"'\\ \t019.,~µΩ😀!_%@?",
  ...["\n", "\r\n", "\r", "\n\n", "\u0000", "\uFEFF", "\ud83d", "\udc00", "\u2028", "\u001b[2J", "\u00a0"],
  ...[
    "|\n|",
    "\\|",
    "---\n",
    "```\n",
    "~~~\n",
    "<!-- ",
    "-->",
    "<script>",
    "</div>",
    "- - - - ",
    "> > > ",
    "![",
    "**a_",
  ],
  ...[
    "U14",
    "U99",
    "Q5.b",
    "+5V",
    "-12V",
    "GND",
    "0.58",
    "OL",
    "4k7",
    "1e309",
    "-0",
    "99999999999999999999",
    "5 V ± 5 %",
  ],
  ...[
    "## Diode check\n",
    "## Supply rails, loaded\n",
    "## Work done\n",
    "## Parts on board\n",
    "## U14\n",
    "# ",
    "\n===\n",
  ],
  ...[
    "| U15 | 4 | 0.6 | |\n",
    "|-----|-----|\n",
    "| Ref | Pin | Reading |\n|-|-|-|\n",
    "| U14 | replaced |\n",
  ],
  ...[
    "<!-- mendlog-allow rail-shorted: x -->\n",
    "<!-- mendlog-parts -->\n",
    "[x]: nowhere.md\n",
    "[^1]: a\n",
    "[^1]",
  ],
  ...["![a](../../out/canary.png)", "[b](file:///etc/hostname)", "../../out/canary.bin", "photos/none.jpg"],
  ...[
    "board: example\n",
    "symptoms: [a, b\n",
    "mendlog: 1\n",
    "mendlog-board: 1\n",
    "received: 2026-02-30\n",
    "warranty: 90 d\n",
  ],
  ...[
    "  U14: { device: 74LS04 }\n",
    "nets:\n  GND: [U14.7, U15.7]\n",
    "&a [*a, *a]",
    "!!binary x",
    "<<: *a\n",
    "? ",
    "constructor: 1\n",
  ],
  ...[
    "__proto__: { a: 1 }\n",
    "| __proto__ | constructor | toString |\n",
    "U1.__proto__",
    "$\u007Ba}",
    "{{a}}",
    "$(a)",
  ],
];

/** One change of a text; `other` is where pieces come from. */
type Spoil = (text: string, draw: Draw, other: string) => string;

const cut = (text: string, from: number, to: number, between = ""): string =>
  text.slice(0, from) + between + text.slice(to);
const place = (text: string, draw: Draw): number => nat(draw, text.length + 1);
const lines = (text: string): string[] => text.split(/(?<=\n)/);

const SPOILS: readonly Spoil[] = [
  (text, draw) => {
    const at = place(text, draw);
    return cut(text, at, at, oneOf(draw, PIECES));
  },
  (text, draw) => {
    const at = place(text, draw);
    return cut(text, at, at + nat(draw, 40), oneOf(draw, PIECES));
  },
  (text, draw) => {
    const at = place(text, draw);
    return cut(text, at, at, oneOf(draw, PIECES).repeat(1 + nat(draw, 60)));
  },
  (text, draw) => cut(text, place(text, draw), text.length),
  (text, draw) => cut(text, place(text, draw), place(text, draw)),
  (text, draw) => {
    const all = lines(text);
    const at = nat(draw, all.length);
    all.splice(at, 0, ...Array(1 + nat(draw, 4)).fill(all[at]));
    return all.join("");
  },
  (text, draw) => {
    const all = lines(text);
    const [a, b] = [nat(draw, all.length), nat(draw, all.length)];
    [all[a], all[b]] = [all[b]!, all[a]!];
    return all.join("");
  },
  (text, draw) => {
    const all = lines(text);
    all.splice(nat(draw, all.length), 1 + nat(draw, 3));
    return all.join("");
  },
  (text, draw, other) => {
    const theirs = lines(other);
    const from = nat(draw, theirs.length);
    const all = lines(text);
    all.splice(nat(draw, all.length + 1), 0, ...theirs.slice(from, from + 1 + nat(draw, 12)));
    return all.join("");
  },
  (text, draw) => {
    const at = place(text, draw);
    return cut(text, at, at + 1, String.fromCharCode(nat(draw, draw() < 0.7 ? 128 : 65536)));
  },
  (text, draw) => text.replace(/\r\n?|\n/g, oneOf(draw, ["\n", "\r\n", "\r"])),
  (text, draw) => {
    const numbers = [...text.matchAll(/\d+(?:\.\d+)?/g)];
    const found = numbers.length > 0 ? oneOf(draw, numbers) : undefined;
    const to = oneOf(draw, ["0", "-1", "1e9", "0.0001", "NaN", "14", "2", "1,5", "99999"]);
    return found ? cut(text, found.index, found.index + found[0].length, to) : text;
  },
  (text, draw) => {
    const words = [...text.matchAll(/[A-Za-z][\w-]*/g)];
    if (words.length === 0) return text;
    const [from, to] = [oneOf(draw, words), oneOf(draw, words)];
    return cut(text, from.index, from.index + from[0].length, to[0]);
  },
];

/** The text changed a few times. Most changes are small, so that most of it still means something. */
export function spoilt(text: string, draw: Draw, other: string): string {
  let now = text;
  for (let left = 1 + nat(draw, 6); left > 0; left--) now = oneOf(draw, SPOILS)(now, draw, other);
  return now.slice(0, 40_000);
}

/** One edit as it is typed or pasted; offsets in UTF-16 code units. */
export interface Typed {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

export function typed(text: string, draw: Draw, other: string): Typed {
  const from = place(text, draw);
  const kind = draw();
  if (kind < 0.55) return { from, to: from, text: oneOf(draw, PIECES) };
  if (kind < 0.8)
    return { from, to: Math.min(text.length, from + nat(draw, 12)), text: oneOf(draw, ["", ...PIECES]) };
  if (kind < 0.95) {
    const theirs = lines(other);
    const at = nat(draw, theirs.length);
    return { from, to: from, text: theirs.slice(at, at + 1 + nat(draw, 6)).join("") };
  }
  return { from, to: Math.min(text.length, from + nat(draw, 400)), text: "" };
}
