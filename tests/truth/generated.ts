// Logs made from a list of what happened, and a plain reading of that list: it knows nothing of tables, of words or of
// how the program reads either.
import fc from "fast-check";

/** What happened, one thing after another. Chips are those of the board the examples are about. */
export type Happening =
  | { readonly what: "tester"; readonly ref: Chip; readonly result: "fail" | "pass" }
  | {
      readonly what: "swap";
      readonly ref: Chip;
      readonly result: "cured" | "better" | "same";
      readonly after: Then;
    }
  | { readonly what: "pin"; readonly ref: Chip; readonly reads: "0.02" | "0.58" }
  | { readonly what: "look"; readonly ref: Chip; readonly result: "burnt" | "ok" }
  | { readonly what: "crossing"; readonly at: Crossing; readonly result: "dead" | "ok" }
  | { readonly what: "proof"; readonly item: Item; readonly result: "fail" | "ok" }
  | { readonly what: "work"; readonly ref: Chip; readonly how: How }
  | { readonly what: "listed"; readonly ref: Chip };

export const CHIPS = ["U14", "U15", "U30"] as const;
export type Chip = (typeof CHIPS)[number];
/** What stands at each place, and what is put there. */
export const PART: Readonly<Record<Chip, string>> = { U14: "74LS04", U15: "74LS04", U30: "74LS14" };

const THEN = { left: "left in", back: "put back", unsaid: "" } as const;
type Then = keyof typeof THEN;

const CROSSINGS = ["Coin", "Bell", "Gate"] as const;
type Crossing = (typeof CROSSINGS)[number];

export const ITEMS = ["Supplies on load", "Work memory", "One hour on the bench"] as const;
export type Item = (typeof ITEMS)[number];

/** Rows of work, each with what they say in their cells. */
const WORK = {
  replaced: [["replaced", true, ""]],
  planned: [["to be replaced", true, ""]],
  "tried and put back": [["swapped for a known-good one", true, "no change, put back"]],
  "tried, then put back": [
    ["swapped for a known-good one", true, ""],
    ["old one put back", false, ""],
  ],
  cleaned: [["cleaned", false, ""]],
  removed: [["removed", false, ""]],
} as const;
type How = keyof typeof WORK;

const chip = fc.constantFrom(...CHIPS);
const one: fc.Arbitrary<Happening> = fc.oneof(
  fc.record({
    what: fc.constant("tester" as const),
    ref: chip,
    result: fc.constantFrom("fail" as const, "pass" as const),
  }),
  fc.record({
    what: fc.constant("swap" as const),
    ref: chip,
    result: fc.constantFrom("cured" as const, "better" as const, "same" as const),
    after: fc.constantFrom<Then>("left", "back", "unsaid"),
  }),
  fc.record({
    what: fc.constant("pin" as const),
    ref: chip,
    reads: fc.constantFrom("0.02" as const, "0.58" as const),
  }),
  fc.record({
    what: fc.constant("look" as const),
    ref: chip,
    result: fc.constantFrom("burnt" as const, "ok" as const),
  }),
  fc.record({
    what: fc.constant("crossing" as const),
    at: fc.constantFrom(...CROSSINGS),
    result: fc.constantFrom("dead" as const, "ok" as const),
  }),
  fc.record({
    what: fc.constant("proof" as const),
    item: fc.constantFrom(...ITEMS),
    result: fc.constantFrom("fail" as const, "ok" as const),
  }),
  fc.record({
    what: fc.constant("work" as const),
    ref: chip,
    how: fc.constantFrom(...(Object.keys(WORK) as How[])),
  }),
  fc.record({ what: fc.constant("listed" as const), ref: chip }),
);

export const story = fc.array(one, { maxLength: 9 });

/** A section each, in the words a bench uses. */
export const written = (all: readonly Happening[]): string => all.map(section).join("\n");

function section(one: Happening): string {
  switch (one.what) {
    case "tester":
      return table("Chip test", ["Ref", "Result"], [one.ref, one.result]);
    case "swap":
      return table(
        "Swap test",
        ["Ref", "Part", "Result", "Then"],
        [one.ref, PART[one.ref], one.result, THEN[one.after]],
      );
    case "pin":
      return table("Diode check", ["Ref", "Pin", "Reading"], [one.ref, "4", one.reads]);
    case "look":
      return table("Inspection", ["Ref", "Result"], [one.ref, one.result]);
    case "crossing":
      return table("Switch matrix", ["Switch", "Result"], [one.at, one.result]);
    case "proof":
      return table("Proving", ["Item", "Result"], [one.item, one.result]);
    case "listed":
      return table("Parts fitted", ["Part", "Quantity", "Ref"], [PART[one.ref], "1", one.ref]);
    case "work":
      return table(
        "Work done",
        ["Ref", "Action", "Part", "Note"],
        ...WORK[one.how].map(([action, part, note]) => [one.ref, action, part ? PART[one.ref] : "", note]),
      );
  }
}

const table = (heading: string, header: readonly string[], ...rows: readonly (readonly string[])[]): string =>
  [`## ${heading}`, "", line(header), line(header.map(() => "---")), ...rows.map(line), ""].join("\n");
const line = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;

/** What is so by the list alone. */
export interface Truth {
  /** Something failed at some time, put right since or not: chips, the matrix, items of the proving list. */
  readonly failed: ReadonlySet<Chip | "Switch matrix" | Item>;
  /**
   * Chips that stand as condemned by a tester or a trial: no other part was put there to stay since, and the same was not
   * tried again with another outcome after work in between.
   */
  readonly condemned: ReadonlySet<Chip>;
  /** Places where another part stands for good. */
  readonly renewed: ReadonlySet<Chip>;
  /** Places where a part was put in for good, or is listed as put in. */
  readonly fitted: ReadonlySet<Chip>;
  /** Places where one is planned and none was put in. */
  readonly planned: ReadonlySet<Chip>;
  /** Rows of work, planned ones left out. */
  readonly worked: number;
  /** Of the three items: failed, or said to work, since hands were last on the board. */
  readonly proofs: ReadonlyMap<Item, "failed" | "proven">;
}

export function truthOf(all: readonly Happening[]): Truth {
  const failed = new Set<Chip | "Switch matrix" | Item>();
  const condemned = new Map<string, { readonly ref: Chip; readonly repairs: number }>();
  let repairs = 0;
  const tried = (by: "tester" | "swap", ref: Chip, isBad: boolean) => {
    const key = `${by} ${ref}`;
    if (isBad) {
      failed.add(ref);
      condemned.set(key, { ref, repairs });
    } else if ((condemned.get(key)?.repairs ?? repairs) < repairs) condemned.delete(key);
  };
  const renewed = new Set<Chip>();
  const fitted = new Set<Chip>();
  const planned = new Set<Chip>();
  const proofs = new Map<Item, "failed" | "proven">();
  let worked = 0;
  const putIn = (ref: Chip) => {
    for (const set of [renewed, fitted]) set.add(ref);
    condemned.delete(`tester ${ref}`);
    condemned.delete(`swap ${ref}`);
  };
  for (const one of all) {
    switch (one.what) {
      case "tester":
        tried("tester", one.ref, one.result === "fail");
        break;
      case "pin":
        if (one.reads === "0.02") failed.add(one.ref);
        break;
      case "look":
        if (one.result === "burnt") failed.add(one.ref);
        break;
      case "swap":
        worked += 1;
        tried("swap", one.ref, one.result !== "same");
        if (one.after === "left") {
          putIn(one.ref);
          repairs += 1;
          proofs.clear();
        }
        break;
      case "crossing":
        if (one.result === "dead") failed.add("Switch matrix");
        break;
      case "proof":
        if (one.result === "fail") failed.add(one.item);
        if (proofs.get(one.item) !== "failed")
          proofs.set(one.item, one.result === "fail" ? "failed" : "proven");
        break;
      case "listed":
        fitted.add(one.ref);
        break;
      case "work":
        if (one.how === "planned") {
          planned.add(one.ref);
          break;
        }
        worked += one.how === "tried, then put back" ? 2 : 1;
        if (one.how === "replaced") putIn(one.ref);
        repairs += 1;
        proofs.clear();
    }
  }
  for (const ref of fitted) planned.delete(ref);
  return {
    failed,
    condemned: new Set([...condemned.values()].map(({ ref }) => ref)),
    renewed,
    fitted,
    planned,
    worked,
    proofs,
  };
}
