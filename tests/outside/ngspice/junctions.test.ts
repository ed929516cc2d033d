// The windows of a transistor's junctions against device models read by a simulated meter: 3 V behind 2.2 kilohm, near
// 1 mA into a short (a usual meter's diode range; common practice, no source). Model parameters: from memory, of the
// size published for such parts.
import { expect, test } from "vitest";
import { judgeJunctions } from "../../../server/src/compute/circuit/junction";
import {
  JUNCTION_PAIRS,
  type JunctionPair,
  type JunctionType,
} from "../../../server/src/compute/circuit/junction-table";
import { describeSpice, measure } from "./spice";

const MODELS = [
  ".model npn npn(is=6.7e-15 bf=400 br=0.7 rb=10 rc=1 ise=6.7e-15 ne=1.26)",
  ".model pnp pnp(is=1.4e-15 bf=180 br=5 rb=10 rc=2.5)",
  ".model big npn(is=1e-13 bf=1000 br=1 rb=1)",
  ".model dd d(is=1e-12 rs=0.1)",
  ".model gate npn(is=1e-15 bf=50 br=1)",
  ".model top pnp(is=1e-15 bf=0.5 br=0.5)",
];

const DARLINGTON = ["q1 c b m big", "q2 c m e big", "r1 b m 8k", "r2 m e 120", "d1 e c dd"];

/** Parts between the nodes b, c and e. */
const PARTS: Readonly<Record<JunctionType, readonly string[]>> = {
  NPN: ["q1 c b e npn"],
  PNP: ["q1 c b e pnp"],
  "NPN-Darlington": DARLINGTON,
  "PNP-Darlington": DARLINGTON.map((line) => line.replace(/ big$/, " bigp").replace("d1 e c", "d1 c e")),
  "N-MOSFET": ["m1 c b e e mos", "d1 e c dd"],
  SCR: ["q1 x b e gate", "q2 b x c top"],
};
const EXTRA = [".model bigp pnp(is=1e-13 bf=1000 br=1 rb=1)", ".model mos nmos(vto=2 kp=0.2)"];

/** What the meter shows: volts, or overload above 2.6 V. The third lead hangs free. */
function read(parts: readonly string[], pair: JunctionPair, short?: string): number {
  const [red, black] = pair;
  const volts = measure("shown", [
    "vm p 0 dc 3",
    `rm p ${red} 2.2k`,
    `vg ${black} 0 dc 0`,
    ...parts,
    ...MODELS,
    ...EXTRA,
    ...["b", "c", "e"].map((node) => `rleak${node} ${node} 0 1g`),
    ...(short === undefined ? [] : [short]),
    ".tran 1u 10u",
    `.measure tran shown find v(${red}) at=9u`,
  ]);
  return volts > 2.6 ? Number.POSITIVE_INFINITY : Math.max(0, volts);
}

const readAll = (type: JunctionType, short?: string) =>
  Object.fromEntries(JUNCTION_PAIRS.map((pair) => [pair, read(PARTS[type], pair, short)])) as Record<
    JunctionPair,
    number
  >;

function judged(type: JunctionType, readings: Partial<Record<JunctionPair, number>>, inCircuit = true) {
  const found = judgeJunctions({ type, readings, inCircuit });
  if (!found.ok) throw new Error(found.reason);
  return found;
}

describeSpice("junctions by simulation", () => {
  test.each(Object.keys(PARTS) as JunctionType[])(
    "a sound %s is not disproved on any of its six pairs",
    (type) => {
      const readings = readAll(type);
      const found = judged(type, readings, false);
      expect(found.verdict, JSON.stringify({ readings, pairs: found.pairs })).toBe("within-limits");
      expect(found.pairs.filter(({ verdict }) => verdict === "unjudged").length).toBeLessThanOrEqual(2);
      expect(found.hints).toEqual([]);
    },
  );

  test("the NPN's collector junction drops a little less than its emitter junction", () => {
    const { be, bc } = readAll("NPN");
    expect(bc).toBeLessThan(be);
    expect(be - bc).toBeLessThan(0.1);
  });

  test("a Darlington's base-emitter reads above a single junction's", () => {
    expect(read(DARLINGTON, "be")).toBeGreaterThan(read(["q1 c b e big"], "be") + 0.05);
    const bare = DARLINGTON.slice(0, 2);
    expect(read(bare, "be")).toBeGreaterThan(1);
    expect(judged("NPN", { be: read(bare, "be") }).verdict).toBe("out-of-limits");
    expect(judged("NPN-Darlington", { be: read(bare, "be") }).verdict).toBe("within-limits");
  });

  test.each(["NPN", "PNP", "NPN-Darlington"] as const)(
    "a shorted collector-emitter of a %s is out of limits",
    (type) => {
      const found = judged(type, readAll(type, "rshort c e 1"));
      expect(found.verdict).toBe("out-of-limits");
      expect(
        found.pairs.filter(({ verdict }) => verdict === "out-of-limits").map(({ pair }) => pair),
      ).toEqual(["ce", "ec"]);
    },
  );

  test.each(["rb b e 470", "rb b c 390", "rb c e 1k"])(
    "a resistor of the board beside it (%s) lowers its readings and makes it suspect, not out of limits",
    (beside) => {
      const alone = readAll("NPN");
      const inPlace = readAll("NPN", beside);
      for (const pair of JUNCTION_PAIRS) expect(inPlace[pair]).toBeLessThanOrEqual(alone[pair] + 1e-6);
      expect(judged("NPN", inPlace).verdict).toBe("suspect");
    },
  );

  test("a PNP marked NPN is found out", () => {
    expect(
      judged("NPN", readAll("PNP"))
        .hints.map(({ suggests }) => suggests)
        .join("\n"),
    ).toMatch(/the part is PNP/);
  });

  test("an open base lead is out of limits", () => {
    const readings = {
      be: read(["q1 c bb e npn", "rbb bb 0 1g"], "be"),
      bc: read(["q1 c bb e npn", "rbb bb 0 1g"], "bc"),
    };
    expect(judged("NPN", readings).verdict).toBe("out-of-limits");
  });
});
