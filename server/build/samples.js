// What stands in the example tables of the procedure pages. Invented, and typed as on the bench.

const BY_ROLE = {
  ref: "U14",
  pin: "1",
  rail: "+5V",
  signal: "RESET",
  state: "pulsing",
  result: "ok",
  row: "1",
  column: "1",
  cell: "Start",
  switch: "1",
  setting: "1 coin, 1 play",
  item: "Headers",
  action: "replaced",
  part: "74LS04",
  quantity: "1",
  date: "2026-03-04",
  note: "",
};

const BY_QUANTITY = {
  voltage: "5.02 V",
  resistance: "4k7",
  capacitance: "98 uF",
  frequency: "1.0 MHz",
  time: "38 ms",
  current: "1.2 A",
};

/** By procedure, then by measure or role. */
const BY_PROCEDURE = {
  "capacitance-esr": { ref: "C1", esr: "0.12 ohm", leakage: "4 uA" },
  "chip-test": { result: "pass" },
  "first-power": { limit: "2 A", load: "1.2 A", item: "nothing", result: "stays up" },
  "fixture-test": { item: "run 1" },
  "heat-and-tap": { item: "cold spray", result: "no change" },
  "outputs-fired": { item: "Coil 1", ref: "Q3", result: "fires" },
  "play-test": { item: "game 1", ref: "" },
  swap: { result: "same, put back" },
  "coil-resistance": { ref: "L3", pin: "1", resistance: "28 ohm", diode: "0.55 V" },
  "diode-check": { drop: "0.58" },
  display: { item: "1", signal: "a" },
  frequency: { ref: "U1", pin: "37", amplitude: "3.8 V" },
  inspection: { ref: "J2", action: "reflowed" },
  "lamp-matrix": { cell: "Lane 1" },
  "logic-levels": { level: "3.4 V" },
  "memory-test": {
    item: "Walking ones",
    address: "0040",
    wrote: "55",
    read: "54",
    bits: "0",
    result: "fail",
  },
  proving: { item: "Every switch input" },
  "reset-timing": { ref: "U1", pin: "40", delay: "38 ms", threshold: "4.6 V" },
  resistance: { ref: "R12" },
  "resistance-to-ground": { resistance: "148 ohm", reversed: "160 ohm" },
  "rom-check": { ref: "U8", sum16: "01dd", crc32: "cbf43926", size: "2048", part: "2716", item: "V2 A" },
  settings: { ref: "SW1", state: "on" },
  soak: { elapsed: "60 min" },
  "supply-rails": { ripple: "12 mV", load: "1.4 A" },
  "transistor-junctions": {
    ref: "Q1",
    part: "2N3904",
    be: "0.66",
    bc: "0.65",
    ce: "OL",
    eb: "OL",
    cb: "OL",
    ec: "OL",
  },
  work: { ref: "U14" },
};

/** The text for a cell; empty where nothing is known to stand there. */
export function sampleOf(procedure, { role, measure, quantity }) {
  const own = BY_PROCEDURE[procedure.id] ?? {};
  return own[measure ?? role] ?? (role === "reading" ? BY_QUANTITY[quantity] : BY_ROLE[role]) ?? "";
}

/** Two headings for the columns of a wide table. */
export function wideHeaders(procedure) {
  const { columns } = procedure.wide;
  if (columns === "ref") return ["U14", "U15"];
  if (columns === "signal") return ["a", "b"];
  return ["1", "2"];
}
