// What the later decoders, multiplexers, adders and buffers of the library do, from the meaning of their names, as in
// definitions.ts: written without regard to server/data, and from memory of the data sheets where disabling and unintended states are concerned.
import {
  BCD,
  bit,
  both,
  decoder,
  define,
  each,
  fill,
  lit,
  names,
  number,
  ones,
  range,
  SEGMENTS,
  SHAPES,
  TAILED,
} from "./definitions";

// Decoders and displays.
decoder("74159", {
  enable: "/G1 /G2",
  enabled: (at) => !at("/G1") && !at("/G2"),
  address: BCD,
  count: 16,
  output: (n) => `/${n}`,
  active: false,
});
decoder("74137", {
  enable: "G1 /G2 /GL",
  enabled: (at) => at("G1") && !at("/G2") && (at("/GL") ? "held" : true),
  address: "C B A",
  count: 8,
  output: (n) => `/Y${n}`,
  active: false,
});
decoder("74238", {
  enable: "G1 /G2A /G2B",
  enabled: (at) => at("G1") && !at("/G2A") && !at("/G2B"),
  address: "C B A",
  count: 8,
  output: (n) => `Y${n}`,
  active: true,
});
define("7449", `/BI ${BCD}`, (at) =>
  each(SEGMENTS, (s) => [s, at("/BI") && lit(SHAPES, number(at, BCD), s)]),
);
for (const [id, prefix, on] of [
  ["74246", "/", false],
  ["74248", "", true],
] as const) {
  define(id, `/BI/RBO /LT /RBI ${BCD}`, (at) => {
    const value = number(at, BCD);
    const blanked = at("/LT") && !at("/RBI") && value === 0;
    const show = (s: string): boolean => at("/BI/RBO") && !blanked && (!at("/LT") || lit(TAILED, value, s));
    return { ...each(SEGMENTS, (s) => [prefix + s, show(s) === on]), "/BI/RBO": blanked ? false : "off" };
  });
}
define("4026", "DEI", (at) => fill(SEGMENTS, at("DEI") ? "held" : false));

// Priority encoders.
define("74348", `/EI ${names(0, 7, (n) => `/${n}`)}`, (at) => {
  const highest = at("/EI") ? undefined : range(0, 7).findLast((n) => !at(`/${n}`));
  return {
    ...each(range(0, 2), (k) => [`/A${k}`, highest === undefined ? "off" : !bit(highest, k)]),
    "/GS": highest === undefined,
    "/EO": at("/EI") || highest !== undefined,
  };
});
define("4532", `EI ${names(0, 7, (n) => `D${n}`)}`, (at) => {
  const highest = at("EI") ? range(0, 7).findLast((n) => at(`D${n}`)) : undefined;
  return {
    ...each(range(0, 2), (k) => [`Q${k}`, highest !== undefined && bit(highest, k)]),
    GS: highest !== undefined,
    EO: at("EI") && highest === undefined,
  };
});

// Multiplexers.
const fours = [1, 2].flatMap((s) => range(0, 3).map((n) => `${s}C${n}`)).join(" ");
for (const [id, disabled] of [
  ["74352", true],
  ["74353", "off"],
] as const) {
  define(id, `/1G /2G B A ${fours}`, (at) =>
    each([1, 2], (s) => [`/${s}Y`, at(`/${s}G`) ? disabled : !at(`${s}C${number(at, "B A")}`)]),
  );
}
define("4539", `/1E /2E B A ${fours.replaceAll("C", "X")}`, (at) =>
  each([1, 2], (s) => [`${s}Z`, !at(`/${s}E`) && at(`${s}X${number(at, "B A")}`)]),
);
define("9312", `/E S2 S1 S0 ${names(0, 7, (n) => `I${n}`)}`, (at) => {
  const through = !at("/E") && at(`I${number(at, "S2 S1 S0")}`);
  return { Z: through, "/Z": !through };
});
define("4512", `/OE INH C B A ${names(0, 7, (n) => `X${n}`)}`, (at) => ({
  Z: at("/OE") ? "off" : !at("INH") && at(`X${number(at, "C B A")}`),
}));

// Arithmetic.
define("7482", "A2 A1 B2 B1 C0", (at) => {
  const sum = number(at, "A2 A1") + number(at, "B2 B1") + (at("C0") ? 1 : 0);
  return { S1: bit(sum, 0), S2: bit(sum, 1), C2: sum > 3 };
});
define("4008", "A3 A2 A1 A0 B3 B2 B1 B0 C0", (at) => {
  const sum = number(at, "A3 A2 A1 A0") + number(at, "B3 B2 B1 B0") + (at("C0") ? 1 : 0);
  return { ...each(range(0, 3), (k) => [`S${k}`, bit(sum, k)]), C4: sum > 15 };
});
for (const [id, greaterWhen] of [
  // What the inputs from the digits below must show for "greater" is wired differently in the two; what is said here
  // is what cascaded parts meet: one of the three high, and the first part of a chain.
  ["4063", "IA>B"],
  ["4585", ""],
] as const) {
  define(id, "A3 A2 A1 A0 B3 B2 B1 B0 IA>B IA<B IA=B", (at) => {
    const a = number(at, "A3 A2 A1 A0");
    const b = number(at, "B3 B2 B1 B0");
    if (a !== b) return { "QA>B": a > b, "QA<B": a < b, "QA=B": false };
    const alone = ones(at, "IA>B IA<B IA=B") === 1;
    const said = at("IA=B") || (greaterWhen !== "" && (at("IA>B") || at("IA<B")));
    if (!alone || !said) return fill(["QA>B", "QA<B", "QA=B"], "any");
    return { "QA>B": at("IA>B"), "QA<B": at("IA<B"), "QA=B": at("IA=B") };
  });
}
const P = names(0, 7, (n) => `P${n}`);
const Q = names(0, 7, (n) => `Q${n}`);
/** The number of eight pins, the last named the most significant. */
const byte = (at: Parameters<typeof number>[0], letter: string): number =>
  number(
    at,
    names(0, 7, (n) => `${letter}${7 - n}`),
  );
define("74520 74521 74689", `/G ${P} ${Q}`, (at) => ({
  "/P=Q": at("/G") || byte(at, "P") !== byte(at, "Q"),
}));
define("74682 74683 74684 74685", `${P} ${Q}`, (at) => ({
  "/P=Q": byte(at, "P") !== byte(at, "Q"),
  "/P>Q": byte(at, "P") <= byte(at, "Q"),
}));
const DATA12 = `${names(0, 11, (n) => `D${n}`)} W`;
define("4531", DATA12, (at) => ({ Q: ones(at, DATA12) % 2 === 1 }));
define("7455", "A B C D E F G H", (at) => ({ Y: !(both(at, "A B C D") || both(at, "E F G H")) }));
define("4085", "1A 1B 1C 1D 1INH 2A 2B 2C 2D 2INH", (at) =>
  each([1, 2], (s) => [`${s}Y`, !(both(at, `${s}A ${s}B`) || both(at, `${s}C ${s}D`) || at(`${s}INH`))]),
);
define("4086", "INH EN A B C D E F G H", (at) => ({
  Y: !(at("INH") || !at("EN") || ["A B", "C D", "E F", "G H"].some((pins) => both(at, pins))),
}));

// Buffers and transceivers.
for (const [id, inverts] of [
  ["74465", false],
  ["74466", true],
] as const) {
  define(id, `/G1 /G2 ${names(1, 8, (n) => `A${n}`)}`, (at) =>
    each(range(1, 8), (n) => [
      `${inverts ? "/" : ""}Y${n}`,
      at("/G1") || at("/G2") ? "off" : at(`A${n}`) !== inverts,
    ]),
  );
}
for (const [ids, inverts] of [
  ["74467 40244", false],
  ["74468 40240", true],
] as const) {
  const data = [1, 2].flatMap((s) => range(1, 4).map((n) => `${s}A${n}`));
  define(ids, `/1G /2G ${data.join(" ")}`, (at) =>
    each(data, (pin) => [
      (inverts ? "/" : "") + pin.replace("A", "Y"),
      at(`/${pin[0]}G`) ? "off" : at(pin) !== inverts,
    ]),
  );
}
define("74645 40245", `/OE DIR ${names(1, 8, (n) => `A${n} B${n}`)}`, (at) => {
  const [from, to] = at("DIR") ? ["A", "B"] : ["B", "A"];
  return {
    ...each(range(1, 8), (n) => [from + String(n), "off"]),
    ...each(range(1, 8), (n) => [to + String(n), at("/OE") ? "off" : at(from + String(n))]),
  };
});
define("4502", `/OE INH ${names(1, 6, (n) => `${n}A`)}`, (at) =>
  each(range(1, 6), (n) => [`/${n}Y`, at("/OE") ? "off" : !at("INH") && !at(`${n}A`)]),
);
define(
  "40109",
  names(1, 4, (n) => `${n}OE ${n}A`),
  (at) => each(range(1, 4), (n) => [`${n}Y`, at(`${n}OE`) ? at(`${n}A`) : "off"]),
);
define("26LS31", `G /G ${names(1, 4, (n) => `${n}A`)}`, (at) =>
  Object.assign(
    {},
    ...range(1, 4).map((n) => {
      const on = at("G") || !at("/G");
      return { [`${n}Y`]: on ? at(`${n}A`) : "off", [`/${n}Y`]: on ? !at(`${n}A`) : "off" };
    }),
  ),
);
define("MC3487", `1-2EN 3-4EN ${names(1, 4, (n) => `${n}A`)}`, (at) =>
  Object.assign(
    {},
    ...range(1, 4).map((n) => {
      const on = at(n <= 2 ? "1-2EN" : "3-4EN");
      return { [`${n}Y`]: on ? at(`${n}A`) : "off", [`/${n}Y`]: on ? !at(`${n}A`) : "off" };
    }),
  ),
);
