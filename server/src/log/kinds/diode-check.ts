import { holdsFigures, isDiode, MOSTLY } from "../content/look";
import { areDrops } from "../content/values";
import { CHIPS, type KindRecord } from "./kind";

/** Drops between ground and a chip's pins, on the meter's diode range and without power. */
export default {
  id: "diode-check",
  inJob: 50,
  holds: "readings",
  place: "pin",
  judgedBy: "diode",
  observedAs: "pin-unpowered",
  acrossJobs: "expected",
  placed: ["pin-drop"],
  alongNets: "drops",
  firstOfChip: true,
  mostlyOf: CHIPS,
  boardSheet: { order: 3 },
  newLog: {},
  claims: (column) =>
    holdsFigures(column) && /\b(?:v ?diode|diode|drops?|v ?f|fwd|forward|junction)\b/.test(column.word),
  // Diodes without pins were read by themselves, both ways.
  // What the figures are of is worked out when it is asked for: most tables are told by their pins.
  refuses: (told) =>
    !told.hasPins && !told.pin && (told.ref?.share(isDiode) ?? 0) >= MOSTLY && told.volts.length > 0,
  byContent: (told) => {
    if (!told.hasPins || told.volts.length === 0 || told.rows < 2) return 0;
    const isSaid = /\b(?:diode|drops?|junctions?|vf)\b/.test([told.words, ...told.headers].join(" "));
    if (areDrops(told)) return isSaid ? 3 : 1;
    return isSaid ? 2 : 0;
  },
} satisfies KindRecord;
