// What the later latches, registers and counters of the library hold at any time, as in definitions.ts: written without
// regard to server/data, and from memory of the data sheets where unintended states are concerned.
import {
  bit,
  cleared,
  define,
  each,
  eight,
  fill,
  held,
  latches,
  loads,
  names,
  never,
  number,
  type Result,
  range,
} from "./definitions";

// Flip-flops, latches and registers: what holds at any time.
const setReset = (set: boolean, reset: boolean): Result => (set ? true : reset ? false : "held");
define(
  "7472",
  "/PRE /CLR",
  (at) => ({ Q: setReset(!at("/PRE"), !at("/CLR")), "/Q": setReset(!at("/CLR"), !at("/PRE")) }),
  (at) => (at("/PRE") || at("/CLR") ? [["Q", "/Q"]] : []),
);
define(
  "74LS78 74114",
  "/1PRE /2PRE /CLR",
  (at) =>
    Object.assign(
      {},
      ...[1, 2].map((s) => ({
        [`${s}Q`]: setReset(!at(`/${s}PRE`), !at("/CLR")),
        [`/${s}Q`]: setReset(!at("/CLR"), !at(`/${s}PRE`)),
      })),
    ),
  (at) => [1, 2].filter((s) => at(`/${s}PRE`) || at("/CLR")).map((s) => [`${s}Q`, `/${s}Q`] as const),
);
latches(
  "7477",
  "1-2EN 3-4EN 1D 2D 3D 4D",
  range(1, 4),
  (at, n) => at(n <= 2 ? "1-2EN" : "3-4EN"),
  never,
  false,
);
latches(
  "40373",
  `/OE LE ${eight}`,
  range(1, 8),
  (at) => at("LE"),
  (at) => at("/OE"),
  false,
);
latches("40374", "/OE", range(1, 8), never, (at) => at("/OE"), false);
for (const [ids, open] of [
  ["74533 74563", true],
  ["74534 74564", false],
] as const) {
  define(ids, open ? `/OE LE ${eight}` : "/OE", (at) =>
    each(range(1, 8), (n) => [`/${n}Q`, at("/OE") ? "off" : open && at("LE") ? !at(`${n}D`) : "held"]),
  );
}
const four = (s: number, letter: string) => range(1, 4).map((n) => `${s}${letter}${n}`);
define("74100", [1, 2].map((s) => `${s}EN ${four(s, "D").join(" ")}`).join(" "), (at) =>
  each(
    [1, 2].flatMap((s) => range(1, 4).map((n) => [s, n] as const)),
    ([s, n]) => [`${s}Q${n}`, at(`${s}EN`) ? at(`${s}D${n}`) : "held"],
  ),
);
define("74116", [1, 2].map((s) => `/${s}CLR /${s}C1 /${s}C2 ${four(s, "D").join(" ")}`).join(" "), (at) =>
  each(
    [1, 2].flatMap((s) => range(1, 4).map((n) => [s, n] as const)),
    ([s, n]) => {
      if (!at(`/${s}CLR`)) return [`${s}Q${n}`, false];
      return [`${s}Q${n}`, at(`/${s}C1`) || at(`/${s}C2`) ? "held" : at(`${s}D${n}`)];
    },
  ),
);
define("4508", [1, 2].map((s) => `/${s}OE ${s}R ${s}ST ${s}D0 ${s}D1 ${s}D2 ${s}D3`).join(" "), (at) =>
  each(
    [1, 2].flatMap((s) => range(0, 3).map((n) => [s, n] as const)),
    ([s, n]) => {
      if (at(`/${s}OE`)) return [`${s}Q${n}`, "off"];
      return [`${s}Q${n}`, at(`${s}R`) ? false : at(`${s}ST`) ? at(`${s}D${n}`) : "held"];
    },
  ),
);
define("4099 4724", "CLR /WD A2 A1 A0 D", (at) =>
  each(range(0, 7), (n) => {
    if (!at("/WD") && number(at, "A2 A1 A0") === n) return [`Q${n}`, at("D")];
    return [`Q${n}`, at("CLR") ? false : "held"];
  }),
);
define("4044", `EN ${names(1, 4, (n) => `/${n}S /${n}R`)}`, (at) =>
  each(range(1, 4), (n) => [
    `${n}Q`,
    !at("EN") ? "off" : !at(`/${n}R`) ? false : at(`/${n}S`) ? "held" : true,
  ]),
);
const QA_D = ["QA", "QB", "QC", "QD"];
const QA_H = [...QA_D, "QE", "QF", "QG", "QH"];
cleared("74198 74199", "/CLR", false, QA_H);
cleared("40194", "/CLR", false, QA_D);
cleared(
  "40174",
  "/CLR",
  false,
  range(1, 6).map((n) => `${n}Q`),
);
cleared(
  "40175",
  "/CLR",
  false,
  range(1, 4).flatMap((n) => [`${n}Q`, `/${n}Q`]),
  true,
);
cleared(
  "4521",
  "R",
  true,
  range(18, 24).map((n) => `Q${n}`),
);
cleared("4047", "RESET", true, ["Q", "/Q"], true);
define("4035", "R T/C", (at) => fill(["Q1", "Q2", "Q3", "Q4"], at("R") ? !at("T/C") : "held"));
define("74295", "OE", (at) => fill(QA_D, at("OE") ? "held" : "off"));
define("74395", "/OE /CLR", (at) => ({
  ...fill(QA_D, at("/OE") ? "off" : at("/CLR") ? "held" : false),
  QD1: at("/CLR") ? "held" : false,
}));
define("74595", "/OE /SRCLR", (at) => ({
  ...fill(QA_H, at("/OE") ? "off" : "held"),
  QH1: at("/SRCLR") ? "held" : false,
}));
define("74590", "/OE", (at) => fill(QA_H, at("/OE") ? "off" : "held"));
define("40105", "/OE", (at) => fill(["Q0", "Q1", "Q2", "Q3"], at("/OE") ? "off" : "held"));
define(
  "74398",
  "CLK",
  () =>
    each(
      range(1, 4).flatMap((n) => [`${n}Q`, `/${n}Q`]),
      (name) => [name, "held"],
    ),
  () => range(1, 4).map((n) => [`${n}Q`, `/${n}Q`] as const),
);
for (const [id, input, q] of [
  ["4031", "CLK", "Q64"],
  ["9601", "B1", "Q"],
] as const) {
  define(
    id,
    input,
    () => ({ [q]: "held", [`/${q}`]: "held" }),
    () => [[q, `/${q}`]],
  );
}
define(
  "74423 9602",
  "/1CLR /2CLR",
  (at) =>
    each(["1Q", "/1Q", "2Q", "/2Q"], (name) => [
      name,
      at(`/${name.replace("/", "")[0]}CLR`) ? "held" : name.startsWith("/"),
    ]),
  () => [
    ["1Q", "/1Q"],
    ["2Q", "/2Q"],
  ],
);
define("4541", "MR Q//Q", (at) => ({ Q: at("MR") ? at("Q//Q") : "held" }));

// Counters: clear, load, set, and the end of the count.
const LOADED = "QA QB QC QD";
define("74176 74177", "/CLR /LOAD A B C D", (at) =>
  !at("/CLR") ? fill(QA_D, false) : at("/LOAD") ? held(LOADED) : loads(at, "A B C D", LOADED),
);
define("40192 40193", "CLR /LOAD A B C D", (at) =>
  at("CLR") ? fill(QA_D, false) : at("/LOAD") ? held(LOADED) : loads(at, "A B C D", LOADED),
);
define("4522 4526", "R PE P0 P1 P2 P3", (at) =>
  at("R")
    ? fill(["Q0", "Q1", "Q2", "Q3"], false)
    : at("PE")
      ? loads(at, "P0 P1 P2 P3", "Q0 Q1 Q2 Q3")
      : held("Q0 Q1 Q2 Q3"),
);
define("74490", "1CLR 1SET9 2CLR 2SET9", (at) =>
  each(
    [1, 2].flatMap((s) => range(0, 3).map((k) => [s, k] as const)),
    ([s, k]) => {
      const [clear, nine] = [at(`${s}CLR`), at(`${s}SET9`)];
      return [`${s}Q${"ABCD"[k]}`, clear && nine ? "any" : clear ? false : nine ? bit(9, k) : "held"];
    },
  ),
);
cleared("40160 40161", "/CLR", false, QA_D);
for (const [ids, last] of [
  ["40160 40162", 9],
  ["40161 40163", 15],
] as const) {
  define(ids, "ENT QD QC QB QA", (at) => {
    const value = number(at, "QD QC QB QA");
    const strange = value > last && at("ENT") && at("QA") && at("QD");
    return { RCO: strange ? "any" : at("ENT") && value === last };
  });
}
define("74169", "/ENT U//D QD QC QB QA", (at) => ({
  "/RCO": at("/ENT") || number(at, "QD QC QB QA") !== (at("U//D") ? 15 : 0),
}));
