// What the parts of the library do, from the meaning of their names: numbers, sums, comparisons, drawn digits. Pins go
// by their data sheet names. Written without regard to server/data: what the truth tables there are held against.
// Which levels disable, and what a part does in states its makers do not intend, is from memory of the data sheets.

/** Levels by pin name. */
export type Levels = (name: string) => boolean;
/** An output's level, "off" where it is switched off, "held" where it keeps what it had, "any" where nothing is said. */
export type Result = boolean | "off" | "held" | "any";

export interface Definition {
  readonly inputs: readonly string[];
  readonly outputs: (levels: Levels) => Readonly<Record<string, Result>>;
  /** Pairs of outputs that are opposite in these states. */
  readonly opposite?: (levels: Levels) => readonly (readonly [string, string])[];
}

const definitions = new Map<string, Definition[]>();

export function define(
  ids: string,
  inputs: string,
  outputs: Definition["outputs"],
  opposite?: Definition["opposite"],
): void {
  for (const id of ids.split(" ")) {
    const entry = { inputs: inputs.split(" "), outputs, ...(opposite ? { opposite } : {}) };
    definitions.set(id, [...(definitions.get(id) ?? []), entry]);
  }
}

export const range = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, index) => from + index);
export const names = (from: number, to: number, name: (n: number) => string): string =>
  range(from, to).map(name).join(" ");
export const fill = (list: readonly string[], result: Result) =>
  Object.fromEntries(list.map((name) => [name, result]));
export const each = <T>(list: readonly T[], entry: (item: T) => readonly [string, Result]) =>
  Object.fromEntries(list.map(entry));
/** The number that pins spell, the most significant first. */
export const number = (at: Levels, pins: string): number =>
  pins.split(" ").reduce((value, pin) => 2 * value + (at(pin) ? 1 : 0), 0);
export const bit = (value: number, at: number): boolean => Math.floor(value / 2 ** at) % 2 === 1;

// Decoders: the output of the number is the active one, where it is enabled and there is such an output.
export function decoder(
  ids: string,
  {
    enable = "",
    enabled = () => true,
    address,
    count,
    output,
    active,
  }: {
    enable?: string;
    enabled?: (at: Levels) => boolean | "held";
    address: string;
    count: number;
    output: (n: number) => string;
    active: boolean;
  },
): void {
  define(ids, `${enable} ${address}`.trim(), (at) =>
    each(range(0, count - 1), (n) => {
      const on = enabled(at);
      if (on === "held") return [output(n), "any"];
      return [output(n), on && number(at, address) === n ? active : !active];
    }),
  );
}

export const BCD = "D C B A";
decoder("7442 7445 74145 74141", { address: BCD, count: 10, output: (n) => `/${n}`, active: false });
// Makers differ over 8 and 9 where the number is above nine.
define("4028", BCD, (at) =>
  each(range(0, 9), (n) => {
    const value = number(at, BCD);
    return [`Q${n}`, value > 9 && n >= 8 ? "any" : value === n];
  }),
);
decoder("74138", {
  enable: "G1 /G2A /G2B",
  enabled: (at) => at("G1") && !at("/G2A") && !at("/G2B"),
  address: "C B A",
  count: 8,
  output: (n) => `/Y${n}`,
  active: false,
});
decoder("74154", {
  enable: "/G1 /G2",
  enabled: (at) => !at("/G1") && !at("/G2"),
  address: BCD,
  count: 16,
  output: (n) => `/${n}`,
  active: false,
});
for (const [id, prefix, active] of [
  ["4514", "S", true],
  ["4515", "/S", false],
] as const) {
  decoder(id, {
    enable: "INH LE",
    enabled: (at) => (at("INH") ? false : at("LE") ? true : "held"),
    address: BCD,
    count: 16,
    output: (n) => prefix + n,
    active,
  });
}
/** Two sections of two to four lines each. */
function dual(
  ids: string,
  inputs: string,
  enabled: (at: Levels, section: number) => boolean,
  address: (section: number) => string,
  output: (section: number, n: number) => string,
  active: boolean,
): void {
  define(ids, inputs, (at) =>
    Object.assign(
      {},
      ...[1, 2].map((section) =>
        each(range(0, 3), (n) => [
          output(section, n),
          enabled(at, section) && number(at, address(section)) === n ? active : !active,
        ]),
      ),
    ),
  );
}
export const own = (section: number) => `${section}B ${section}A`;
dual(
  "74139",
  "/1G 1B 1A /2G 2B 2A",
  (at, s) => !at(`/${s}G`),
  own,
  (s, n) => `/${s}Y${n}`,
  false,
);
dual(
  "4556",
  "/1E 1B 1A /2E 2B 2A",
  (at, s) => !at(`/${s}E`),
  own,
  (s, n) => `/${s}Q${n}`,
  false,
);
dual(
  "4555",
  "/1E 1B 1A /2E 2B 2A",
  (at, s) => !at(`/${s}E`),
  own,
  (s, n) => `${s}Q${n}`,
  true,
);
dual(
  "74155 74156",
  "/1G 1C /2G /2C B A",
  (at, s) => (s === 1 ? !at("/1G") && at("1C") : !at("/2G") && !at("/2C")),
  () => "B A",
  (s, n) => `/${s}Y${n}`,
  false,
);

// Digits as they look: a is above, then f g b, then e d c. The symbols above nine and the tails of 6 and 9 are
// from memory of the data sheets.
export const SHAPES: readonly (readonly [string, string, string])[] = [
  [" _ ", "| |", "|_|"],
  ["   ", "  |", "  |"],
  [" _ ", " _|", "|_ "],
  [" _ ", " _|", " _|"],
  ["   ", "|_|", "  |"],
  [" _ ", "|_ ", " _|"],
  ["   ", "|_ ", "|_|"],
  [" _ ", "  |", "  |"],
  [" _ ", "|_|", "|_|"],
  [" _ ", "|_|", "  |"],
  ["   ", " _ ", "|_ "],
  ["   ", " _ ", " _|"],
  ["   ", "|_|", "   "],
  [" _ ", "|_ ", " _ "],
  ["   ", "|_ ", "|_ "],
  ["   ", "   ", "   "],
];
export const TAILED = SHAPES.map((shape, n): readonly [string, string, string] =>
  n === 6 ? [" _ ", "|_ ", "|_|"] : n === 9 ? [" _ ", "|_|", " _|"] : shape,
);
export const SEGMENTS = ["a", "b", "c", "d", "e", "f", "g"];
const PLACES: Readonly<Record<string, readonly [line: number, column: number]>> = {
  a: [0, 1],
  f: [1, 0],
  g: [1, 1],
  b: [1, 2],
  e: [2, 0],
  d: [2, 1],
  c: [2, 2],
};
export const lit = (shapes: typeof SHAPES, digit: number, segment: string): boolean => {
  const [line, column] = PLACES[segment]!;
  return shapes[digit]![line]![column] !== " ";
};
function segments(ids: string, shapes: typeof SHAPES, prefix: string, on: boolean): void {
  define(ids, `/BI/RBO /LT /RBI ${BCD}`, (at) => {
    const value = number(at, BCD);
    // A zero that may be blanked is: the pin is then held low from inside, else left to the board.
    const blanked = at("/LT") && !at("/RBI") && value === 0;
    const show = (segment: string): boolean =>
      at("/BI/RBO") && !blanked && (!at("/LT") || lit(shapes, value, segment));
    return {
      ...each(SEGMENTS, (s) => [prefix + s, show(s) === on]),
      "/BI/RBO": blanked ? false : "off",
    };
  });
}
segments("7446 7447", SHAPES, "/", false);
segments("74247", TAILED, "/", false);
segments("7448", SHAPES, "", true);
define("4511", `/LT /BL LE ${BCD}`, (at) => {
  const value = number(at, BCD);
  return each(SEGMENTS, (s) => {
    if (!at("/LT")) return [s, true];
    if (!at("/BL")) return [s, false];
    return [s, at("LE") ? "any" : value <= 9 && lit(SHAPES, value, s)];
  });
});
define("4543", `BI LD PH ${BCD}`, (at) => {
  const value = number(at, BCD);
  return each(SEGMENTS, (s) => {
    if (at("BI")) return [s, at("PH")];
    return [s, at("LD") ? (value <= 9 && lit(TAILED, value, s)) !== at("PH") : "any"];
  });
});

// Multiplexers: the input of the number goes through.
define("74150", `/G ${BCD} ${names(0, 15, (n) => `E${n}`)}`, (at) => ({
  W: at("/G") || !at(`E${number(at, BCD)}`),
}));
for (const [id, disabled] of [
  ["74151", { Y: false, W: true }],
  ["74251", { Y: "off", W: "off" }],
] as const) {
  define(id, `/G C B A ${names(0, 7, (n) => `D${n}`)}`, (at) => {
    const through = at(`D${number(at, "C B A")}`);
    return at("/G") ? disabled : { Y: through, W: !through };
  });
}
for (const [id, disabled] of [
  ["74153", false],
  ["74253", "off"],
] as const) {
  const data = [1, 2].flatMap((s) => range(0, 3).map((n) => `${s}C${n}`)).join(" ");
  define(id, `/1G /2G B A ${data}`, (at) =>
    each([1, 2], (s) => [`${s}Y`, at(`/${s}G`) ? disabled : at(`${s}C${number(at, "B A")}`)]),
  );
}
for (const [id, inverts, disabled] of [
  ["74157", false, false],
  ["74158", true, true],
  ["74257", false, "off"],
  ["74258", true, "off"],
] as const) {
  define(id, "/G /A/B 1A 1B 2A 2B 3A 3B 4A 4B", (at) =>
    each(range(1, 4), (n) => [
      `${inverts ? "/" : ""}${n}Y`,
      at("/G") ? disabled : at(`${n}${at("/A/B") ? "B" : "A"}`) !== inverts,
    ]),
  );
}
define("4019", "KA KB A1 A2 A3 A4 B1 B2 B3 B4", (at) =>
  each(range(1, 4), (n) => [`D${n}`, (at("KA") && at(`A${n}`)) || (at("KB") && at(`B${n}`))]),
);

// Priority encoders: the highest input that is low, its number turned over.
define("74148", `/EI ${names(0, 7, (n) => `/${n}`)}`, (at) => {
  const highest = at("/EI") ? undefined : range(0, 7).findLast((n) => !at(`/${n}`));
  const shown = each(range(0, 2), (k) => [`/A${k}`, highest === undefined || !bit(highest, k)]);
  return { ...shown, "/GS": highest === undefined, "/EO": at("/EI") || highest !== undefined };
});
define(
  "74147",
  names(1, 9, (n) => `/${n}`),
  (at) => {
    const highest = range(1, 9).findLast((n) => !at(`/${n}`)) ?? 0;
    return each(range(0, 3), (k) => [`/${"ABCD"[k]}`, !bit(highest, k)]);
  },
);

// Arithmetic.
define("7485", "A3 A2 A1 A0 B3 B2 B1 B0 IA>B IA<B IA=B", (at) => {
  const a = number(at, "A3 A2 A1 A0");
  const b = number(at, "B3 B2 B1 B0");
  if (a !== b) return { "QA>B": a > b, "QA<B": a < b, "QA=B": false };
  // Equal: what the lower digits' comparator says. Its "equal" goes before its other two (from memory).
  if (at("IA=B")) return { "QA>B": false, "QA<B": false, "QA=B": true };
  return { "QA>B": !at("IA<B"), "QA<B": !at("IA>B"), "QA=B": false };
});
define("7483 74283", "A4 A3 A2 A1 B4 B3 B2 B1 C0", (at) => {
  const sum = number(at, "A4 A3 A2 A1") + number(at, "B4 B3 B2 B1") + (at("C0") ? 1 : 0);
  return { S1: bit(sum, 0), S2: bit(sum, 1), S3: bit(sum, 2), S4: bit(sum, 3), C4: sum > 15 };
});
define("74688", `/G ${names(0, 7, (n) => `P${n}`)} ${names(0, 7, (n) => `Q${n}`)}`, (at) => ({
  "/P=Q": at("/G") || range(0, 7).some((n) => at(`P${n}`) !== at(`Q${n}`)),
}));
export const ones = (at: Levels, pins: string): number => pins.split(" ").filter(at).length;
define("74280", "A B C D E F G H I", (at) => {
  const odd = ones(at, "A B C D E F G H I") % 2 === 1;
  return { SEVEN: !odd, SODD: odd };
});
define("74180", "A B C D E F G H EVEN ODD", (at) => {
  if (at("EVEN") === at("ODD")) return { SEVEN: !at("EVEN"), SODD: !at("EVEN") };
  const odd = ones(at, "A B C D E F G H") % 2 === 1;
  return { SEVEN: odd !== at("EVEN"), SODD: odd === at("EVEN") };
});
export const both = (at: Levels, pins: string): boolean => pins.split(" ").every(at);
define("7451", "1A 1B 1C 1D 2A 2B 2C 2D", (at) =>
  each([1, 2], (s) => [`${s}Y`, !(both(at, `${s}A ${s}B`) || both(at, `${s}C ${s}D`))]),
);
define("74LS51", "1A 1B 1C 1D 1E 1F 2A 2B 2C 2D", (at) => ({
  "1Y": !(both(at, "1A 1B 1C") || both(at, "1D 1E 1F")),
  "2Y": !(both(at, "2A 2B") || both(at, "2C 2D")),
}));
define("7454", "A B C D E F G H", (at) => ({
  Y: !["A B", "C D", "E F", "G H"].some((pins) => both(at, pins)),
}));
define("74LS54", "A B C D E F G H I J", (at) => ({
  Y: !["A B", "C D E", "F G H", "I J"].some((pins) => both(at, pins)),
}));
define("7425", "1G 1A 1B 1C 1D 2G 2A 2B 2C 2D", (at) =>
  each([1, 2], (s) => [`${s}Y`, !(at(`${s}G`) && ["A", "B", "C", "D"].some((x) => at(s + x)))]),
);

// Buffers and transceivers: through where enabled, else off.
define(
  "74125",
  names(1, 4, (n) => `/${n}OE ${n}A`),
  (at) => each(range(1, 4), (n) => [`${n}Y`, at(`/${n}OE`) ? "off" : at(`${n}A`)]),
);
define(
  "74126",
  names(1, 4, (n) => `${n}OE ${n}A`),
  (at) => each(range(1, 4), (n) => [`${n}Y`, at(`${n}OE`) ? at(`${n}A`) : "off"]),
);
for (const [id, second, inverts] of [
  ["74240", "/2G", true],
  ["74241", "2G", false],
  ["74244", "/2G", false],
] as const) {
  const data = [1, 2].flatMap((s) => range(1, 4).map((n) => `${s}A${n}`));
  define(id, `/1G ${second} ${data.join(" ")}`, (at) =>
    each(data, (pin) => {
      const on = pin.startsWith("1") ? !at("/1G") : second === "2G" ? at("2G") : !at("/2G");
      return [(inverts ? "/" : "") + pin.replace("A", "Y"), on ? at(pin) !== inverts : "off"];
    }),
  );
}
for (const [id, count, inverts] of [
  ["74365", 6, false],
  ["74366", 6, true],
  ["74540", 8, true],
  ["74541", 8, false],
] as const) {
  const pin = (n: number, letter: string) => (count === 6 ? `${n}${letter}` : `${letter}${n}`);
  define(id, `/G1 /G2 ${names(1, count, (n) => pin(n, "A"))}`, (at) =>
    each(range(1, count), (n) => [
      (inverts ? "/" : "") + pin(n, "Y"),
      at("/G1") || at("/G2") ? "off" : at(pin(n, "A")) !== inverts,
    ]),
  );
}
for (const [id, inverts] of [
  ["74367", false],
  ["74368", true],
  ["4503", false],
] as const) {
  define(id, `/1G /2G ${names(1, 6, (n) => `${n}A`)}`, (at) =>
    each(range(1, 6), (n) => [
      `${inverts ? "/" : ""}${n}Y`,
      at(n <= 4 ? "/1G" : "/2G") ? "off" : at(`${n}A`) !== inverts,
    ]),
  );
}
for (const [id, inverts] of [
  ["74245", false],
  ["74640", true],
] as const) {
  // Both sides are given a level, as on a board; the one driven must show the other's.
  define(id, `/OE DIR ${names(1, 8, (n) => `A${n} B${n}`)}`, (at) => {
    const [from, to] = at("DIR") ? ["A", "B"] : ["B", "A"];
    return {
      ...fill(
        range(1, 8).map((n) => from! + n),
        "off",
      ),
      ...each(range(1, 8), (n) => [to! + n, at("/OE") ? "off" : at(from! + n) !== inverts]),
    };
  });
}
for (const [id, inverts] of [
  ["74242", true],
  ["74243", false],
] as const) {
  define(id, `/GAB GBA ${names(1, 4, (n) => `A${n} B${n}`)}`, (at) => {
    const toB = !at("/GAB");
    const toA = at("GBA");
    const go = (on: boolean, other: boolean, from: string): Result =>
      on ? (other ? "any" : at(from) !== inverts) : "off";
    return {
      ...each(range(1, 4), (n) => [`B${n}`, go(toB, toA, `A${n}`)]),
      ...each(range(1, 4), (n) => [`A${n}`, go(toA, toB, `B${n}`)]),
    };
  });
}

// Flip-flops and latches: what their preset, clear and enable pins hold at any time.
for (const [ids, preset, clear, active] of [
  ["7474 74109 74112 7476", "PRE", "CLR", false],
  ["7473 74107", "", "CLR", false],
  ["74113", "PRE", "", false],
  ["4013 4027", "S", "R", true],
] as const) {
  const pin = (s: number, name: string) => `${active ? "" : "/"}${s}${name}`;
  const on = (at: Levels, s: number, name: string) => name !== "" && at(pin(s, name)) === active;
  const inputs = [1, 2].flatMap((s) => [preset, clear].filter((n) => n !== "").map((n) => pin(s, n)));
  define(
    ids,
    inputs.join(" "),
    (at) =>
      Object.assign(
        {},
        ...[1, 2].map((s) => {
          const set = on(at, s, preset);
          const reset = on(at, s, clear);
          const q = set ? true : reset ? false : "held";
          return { [`${s}Q`]: q, [`/${s}Q`]: reset ? true : set ? false : "held" };
        }),
      ),
    (at) =>
      [1, 2].filter((s) => !(on(at, s, preset) && on(at, s, clear))).map((s) => [`${s}Q`, `/${s}Q`] as const),
  );
}
/** Each latch follows its D while it is open. */
export function latches(
  ids: string,
  inputs: string,
  bits: readonly number[],
  open: (at: Levels, n: number) => boolean,
  off: (at: Levels) => boolean,
  complements: boolean,
): void {
  define(
    ids,
    inputs,
    (at) =>
      Object.assign(
        {},
        ...bits.map((n) => {
          const q = off(at) ? "off" : open(at, n) ? at(`${n}D`) : "held";
          return complements
            ? { [`${n}Q`]: q, [`/${n}Q`]: typeof q === "boolean" ? !q : q }
            : { [`${n}Q`]: q };
        }),
      ),
    complements ? () => bits.map((n) => [`${n}Q`, `/${n}Q`] as const) : undefined,
  );
}
export const never = () => false;
latches(
  "7475 74375",
  "1-2EN 3-4EN 1D 2D 3D 4D",
  range(1, 4),
  (at, n) => at(n <= 2 ? "1-2EN" : "3-4EN"),
  never,
  true,
);
latches("4042", "CLK POL 1D 2D 3D 4D", range(1, 4), (at) => at("CLK") === at("POL"), never, true);
export const eight = names(1, 8, (n) => `${n}D`);
latches(
  "74373 74573",
  `/OE LE ${eight}`,
  range(1, 8),
  (at) => at("LE"),
  (at) => at("/OE"),
  false,
);
latches("74374 74574", `/OE ${eight}`, range(1, 8), never, (at) => at("/OE"), false);
latches("74379", "/G", range(1, 4), never, never, true);
/** Outputs all at one level while a pin is active, held otherwise. */
export function cleared(
  ids: string,
  pin: string,
  active: boolean,
  outputs: readonly string[],
  pairs = false,
): void {
  define(
    ids,
    pin,
    (at) => each(outputs, (name) => [name, at(pin) === active ? name.startsWith("/") : "held"]),
    pairs
      ? () => outputs.filter((name) => name.startsWith("/")).map((name) => [name.slice(1), name] as const)
      : undefined,
  );
}
const Qs = (from: number, to: number) => range(from, to).map((n) => `Q${n}`);
const QA_D = ["QA", "QB", "QC", "QD"];
cleared(
  "74174",
  "/CLR",
  false,
  range(1, 6).map((n) => `${n}Q`),
);
cleared(
  "74273",
  "/CLR",
  false,
  range(1, 8).map((n) => `${n}Q`),
);
cleared(
  "74175",
  "/CLR",
  false,
  range(1, 4).flatMap((n) => [`${n}Q`, `/${n}Q`]),
  true,
);
cleared("74122", "/CLR", false, ["Q", "/Q"], true);
define("74160 74161", "/CLR", (at) => (at("/CLR") ? fill(QA_D, "held") : fill([...QA_D, "RCO"], false)));
cleared("74164", "/CLR", false, [...QA_D, "QE", "QF", "QG", "QH"]);
cleared("74166", "/CLR", false, ["QH"]);
cleared("74194", "/CLR", false, QA_D);
cleared("74195", "/CLR", false, [...QA_D, "/QD"], true);
cleared("4020", "R", true, ["Q1", ...Qs(4, 14)]);
cleared("4024", "R", true, Qs(1, 7));
cleared("4040", "R", true, Qs(1, 12));
cleared("4060", "R", true, [...Qs(4, 10), ...Qs(12, 14)]);
for (const [ids, pin, names_] of [
  ["74390 74393", "CLR", QA_D],
  ["4015 4518 4520", "R", Qs(1, 4)],
] as const) {
  define(ids, `1${pin} 2${pin}`, (at) =>
    each(
      [1, 2].flatMap((s) => names_.map((q) => [s, q] as const)),
      ([s, q]) => [s + q, at(`${s}${pin}`) ? false : "held"],
    ),
  );
}
for (const [ids, pin] of [
  ["74123 74221", "CLR"],
  ["4098 4528 4538", "R"],
] as const) {
  define(
    ids,
    `/1${pin} /2${pin}`,
    (at) =>
      each(["1Q", "/1Q", "2Q", "/2Q"], (name) => [
        name,
        at(`/${name.replace("/", "")[0]}${pin}`) ? "held" : name.startsWith("/"),
      ]),
    () => [
      ["1Q", "/1Q"],
      ["2Q", "/2Q"],
    ],
  );
}
define(
  "74121",
  "A1 A2 B",
  () => ({ Q: "held", "/Q": "held" }),
  () => [["Q", "/Q"]],
);
define(
  "7491",
  "CLK",
  () => ({ QH: "held", "/QH": "held" }),
  () => [["QH", "/QH"]],
);
define("7496", "/CLR PRE", (at) => fill([...QA_D, "QE"], at("/CLR") ? "held" : at("PRE") ? "any" : false));
for (const [id, clear, m] of [
  ["74173", "CLR", "/M"],
  ["4076", "R", "/M"],
] as const) {
  define(id, `${m} /N ${clear}`, (at) =>
    fill(["1Q", "2Q", "3Q", "4Q"], at(m) || at("/N") ? "off" : at(clear) ? false : "held"),
  );
}
define("74279", "/1S1 /1S2 /1R /2S /2R /3S1 /3S2 /3R /4S /4R", (at) =>
  each(range(1, 4), (n) => {
    const set = n % 2 === 1 ? !at(`/${n}S1`) || !at(`/${n}S2`) : !at(`/${n}S`);
    return [`${n}Q`, set ? true : at(`/${n}R`) ? "held" : false];
  }),
);
define("4043", `EN ${names(1, 4, (n) => `${n}S ${n}R`)}`, (at) =>
  each(range(1, 4), (n) => [`${n}Q`, !at("EN") ? "off" : at(`${n}S`) ? true : at(`${n}R`) ? false : "held"]),
);
define("74259", "/CLR /G A2 A1 A0 D", (at) =>
  each(range(0, 7), (n) => {
    if (!at("/G") && number(at, "A2 A1 A0") === n) return [`Q${n}`, at("D")];
    return [`Q${n}`, at("/CLR") ? "held" : false];
  }),
);

// Counters and registers: clear and load at once.
export const loads = (at: Levels, from: string, to: string): Readonly<Record<string, Result>> => {
  const pins = from.split(" ");
  return each(to.split(" "), (name) => [name, at(pins[to.split(" ").indexOf(name)]!)]);
};
const Q4 = "QA QB QC QD";
export const held = (to: string) => fill(to.split(" "), "held");
define("74190 74191", "/LOAD A B C D", (at) => (at("/LOAD") ? held(Q4) : loads(at, "A B C D", Q4)));
define("74192 74193", "CLR /LOAD A B C D", (at) =>
  at("CLR") ? fill(Q4.split(" "), false) : at("/LOAD") ? held(Q4) : loads(at, "A B C D", Q4),
);
define("74196 74197", "/CLR /LOAD A B C D", (at) =>
  !at("/CLR") ? fill(Q4.split(" "), false) : at("/LOAD") ? held(Q4) : loads(at, "A B C D", Q4),
);
define(
  "74165",
  "SH//LD H",
  (at) => (at("SH//LD") ? { QH: "held", "/QH": "held" } : { QH: at("H"), "/QH": !at("H") }),
  () => [["QH", "/QH"]],
);
define("7490 74290", "R9(1) R9(2) R0(1) R0(2)", (at) => {
  const value = both(at, "R9(1) R9(2)") ? 9 : both(at, "R0(1) R0(2)") ? 0 : undefined;
  return each(range(0, 3), (k) => [`Q${"ABCD"[k]}`, value === undefined ? "held" : bit(value, k)]);
});
define("7492 7493 74293", "R0(1) R0(2)", (at) => fill(QA_D, both(at, "R0(1) R0(2)") ? false : "held"));
define("4017", "R", (at) =>
  at("R")
    ? { ...each(range(0, 9), (n) => [`Q${n}`, n === 0]), CO: true }
    : { ...fill(Qs(0, 9), "held"), CO: "held" },
);
define("4022", "R", (at) =>
  at("R")
    ? { ...each(range(0, 7), (n) => [`Q${n}`, n === 0]), CO: true }
    : { ...fill(Qs(0, 7), "held"), CO: "held" },
);
define("4018", "R PE J1 J2 J3 J4 J5", (at) =>
  each(range(1, 5), (n) => [
    `/Q${n}`,
    at("R") ? (at("PE") ? "any" : true) : at("PE") ? !at(`J${n}`) : "held",
  ]),
);
define("4021", "P/S P6 P7 P8", (at) => (at("P/S") ? loads(at, "P6 P7 P8", "Q6 Q7 Q8") : held("Q6 Q7 Q8")));
define("4029", "PE J1 J2 J3 J4", (at) =>
  at("PE") ? loads(at, "J1 J2 J3 J4", "Q1 Q2 Q3 Q4") : held("Q1 Q2 Q3 Q4"),
);
define("4510 4516", "R PE P1 P2 P3 P4", (at) =>
  at("R") ? fill(Qs(1, 4), false) : at("PE") ? loads(at, "P1 P2 P3 P4", "Q1 Q2 Q3 Q4") : held("Q1 Q2 Q3 Q4"),
);
define("4094", "OE", (at) => fill(Qs(1, 8), at("OE") ? "held" : "off"));
define("74189", "/CS /WE", (at) =>
  fill(
    range(1, 4).map((n) => `/Q${n}`),
    at("/CS") || !at("/WE") ? "off" : "held",
  ),
);
define("74670", "/GR", (at) => fill(Qs(1, 4), at("/GR") ? "off" : "held"));
define("74170", "/GR", (at) => fill(Qs(1, 4), at("/GR") ? true : "held"));

// Ends of the count, decoded from the outputs. What a decade counter does above nine is not said.
for (const [ids, last] of [
  ["74160 74162", 9],
  ["74161 74163", 15],
] as const) {
  define(ids, "ENT QD QC QB QA", (at) => {
    const value = number(at, "QD QC QB QA");
    const strange = value > last && at("ENT") && at("QA") && at("QD");
    return { RCO: strange ? "any" : at("ENT") && value === last };
  });
}
define("74191", "D/U QD QC QB QA", (at) => ({
  "MAX/MIN": number(at, "QD QC QB QA") === (at("D/U") ? 0 : 15),
}));

export const DEFINITIONS: ReadonlyMap<string, readonly Definition[]> = definitions;
