// Drafts and changes for property tests: names as awkward as a board file may hold, and some that none may.
import fc from "fast-check";
import type { BoardChange, BoardDraft, DraftPart } from "../../../server/src/knowledge/board-file";

/** Texts that YAML takes for something else, or that end one of its forms early. */
export const AWKWARD = [
  "7404",
  "2114",
  "12E3",
  "0x1F",
  "0o17",
  "1_000",
  "1:30",
  "2026-01-14",
  ".5",
  "+5",
  "-12",
  "on",
  "Off",
  "yes",
  "NO",
  "n",
  "true",
  "null",
  "~",
  "-",
  "- a",
  "--- a",
  "?",
  "? a",
  ": a",
  "a: b",
  "a:",
  "a #b",
  "#a",
  "a, b",
  "[a]",
  "{a: b}",
  "*a",
  "&a",
  "!a",
  "%a",
  "@a",
  "`a",
  "|",
  ">",
  "'a'",
  '"a"',
  "it's",
  'say "so"',
  "a\\b",
  "a\\n",
  "4k7 Ω ±5 %",
  "Gerät",
  "部品",
  "🙂",
  "a\u00a0b",
  "a\u0085b",
  "a\u2028b",
  "\uFEFFa",
  "a\tb",
  "a\nb",
  "a\r\nb",
  "a \n  b: c\n",
  " a",
  "a ",
  "\u0001",
  "\ud800",
  "<<",
  "=",
  "x".repeat(200),
];

export const words = fc.oneof(
  fc.constantFrom(...AWKWARD),
  fc.string({ minLength: 1, maxLength: 12 }),
  fc.string({ unit: "grapheme", minLength: 1, maxLength: 12 }),
  fc.string({
    unit: fc.constantFrom(":", "#", " ", "'", '"', "\\", "\n", "-", ",", "]", "}", "a", "1"),
    minLength: 1,
  }),
);

/** A name the schema takes for a rail or a net. */
export const names = words.filter((name) =>
  /^(?!__proto__$|constructor$|prototype$)[^\s](.*[^\s])?$/.test(name),
);
export const refs = fc.oneof(
  fc.constantFrom("U1", "U2", "U5", "R1", "J3", "7404", "12E3", "ON", "No", "2C", "1_0", "0x1F", "null"),
  fc.stringMatching(/^[A-Z]{1,2}[0-9]{1,2}$/),
);
export const ids = fc.constantFrom(
  "reset",
  "sound",
  "on",
  "7404",
  "1e3",
  "a.b",
  "y",
  "null",
  "switch-matrix",
);
const pins = fc
  .tuple(refs, fc.constantFrom("1", "2", "14", "+", "A", "~"))
  .map(([ref, pin]) => `${ref}.${pin}`);
const from = fc.oneof(fc.constantFrom("log 2026-014, line 31", "netlist a.d356"), words);

const optionals = <T extends object>(fields: { [K in keyof T]: fc.Arbitrary<T[K]> }) =>
  fc.record(fields, { requiredKeys: [] }) as unknown as fc.Arbitrary<Partial<T>>;

export const part: fc.Arbitrary<DraftPart> = fc
  .tuple(refs, from, optionals({ device: words, value: words, package: words, circuit: ids, note: words }))
  .map(([ref, source, fields]) => ({ ref, from: source, ...fields }) as DraftPart);

const volts = fc.constantFrom("5 V", "12 V", "-5 V", "4.4 V");
export const rail = fc
  .tuple(
    names,
    volts,
    fc.constantFrom("5 %", "0.25 V"),
    from,
    optionals({ ripple: fc.constant("50 mV"), net: names, source: words }),
  )
  .map(([name, nominal, tolerance, source, fields]) => ({
    name,
    nominal,
    tolerance,
    from: source,
    ...fields,
  }));
export const net = fc
  .tuple(names, fc.uniqueArray(pins, { maxLength: 40 }), from)
  .map(([name, own, source]) => ({ name, pins: own, from: source }));
export const circuit = fc.tuple(ids, words, from).map(([id, title, source]) => ({ id, title, from: source }));
export const matrix = fc
  .tuple(
    ids,
    fc.constantFrom("switch" as const, "lamp" as const),
    words,
    fc.uniqueArray(names),
    fc.uniqueArray(names),
    from,
  )
  .map(([id, kind, title, rows, columns, source]) => ({ id, kind, title, rows, columns, from: source }));
const place = fc.oneof(
  fc.record({ ref: refs }),
  fc.record({ ref: refs, pin: fc.constantFrom("1", "14", "+") }),
  fc.record({ rail: fc.constantFrom("+5V", "on", "12") }),
);
export const expected = fc
  .tuple(
    fc.constantFrom("diode-check", "resistance"),
    place,
    fc.constantFrom("0.4 V", "0.45 V"),
    fc.constantFrom("0.6 V", "0.7 V"),
    words,
    from,
  )
  .map(([procedure, at, low, high, source, learned]) => ({
    procedure,
    ...at,
    low,
    high,
    source,
    from: learned,
  }));

export const change: fc.Arbitrary<BoardChange> = fc.oneof(
  fc.record({ kind: fc.constant("ground" as const), name: names }),
  fc.record({ kind: fc.constant("rail" as const), entry: rail }) as fc.Arbitrary<BoardChange>,
  fc.record({ kind: fc.constant("circuit" as const), entry: circuit }),
  fc.record({ kind: fc.constant("part" as const), entry: part }),
  fc.record({ kind: fc.constant("net" as const), entry: net }),
  fc.record({ kind: fc.constant("matrix" as const), entry: matrix }),
  fc.record({ kind: fc.constant("symptom" as const), entry: circuit }),
  fc.record({ kind: fc.constant("expected" as const), entry: expected }) as fc.Arbitrary<BoardChange>,
  fc.record({
    kind: fc.constant("expected" as const),
    entry: expected,
    replace: fc.constant(true as const),
  }) as fc.Arbitrary<BoardChange>,
  fc.record({ kind: fc.constant("device" as const), ref: refs, device: words }),
  fc.record({ kind: fc.constant("fits" as const), ref: refs, part: words }),
);

const guessed = <T extends object>(entry: fc.Arbitrary<T>): fc.Arbitrary<T> =>
  fc
    .tuple(entry, fc.nat(3))
    .map(([value, chance]) => (chance === 0 ? { ...value, guess: true } : value) as T);

const listOf = <T extends object>(entry: fc.Arbitrary<T>, key: (value: T) => string) =>
  fc.uniqueArray(guessed(entry), { maxLength: 6, selector: key });

export const draft: fc.Arbitrary<BoardDraft> = fc.record({
  id: fc.constantFrom("halden", "7404", "on", "a.b"),
  title: words.filter((title) => title.trim() !== ""),
  grounds: fc.uniqueArray(names, { maxLength: 3 }),
  rails: listOf(rail, ({ name }) => name) as fc.Arbitrary<BoardDraft["rails"]>,
  circuits: listOf(circuit, ({ id }) => id),
  parts: listOf(part, ({ ref }) => ref),
  nets: listOf(net, ({ name }) => name),
  matrices: listOf(matrix, ({ id }) => id),
  symptoms: listOf(circuit, ({ id }) => id),
  expected: listOf(expected, (entry) => JSON.stringify([entry.procedure, entry])) as unknown as fc.Arbitrary<
    BoardDraft["expected"]
  >,
});
