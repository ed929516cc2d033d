import { holdsFigures } from "../content/look";
import { areLevels } from "../content/values";
import { specFor } from "../headers";
import { CHIPS, type ColumnClues, type KindRecord } from "./kind";
import { namesRails } from "./supply-rails";

export default {
  id: "logic-levels",
  inJob: 170,
  holds: "readings",
  place: "pin",
  judgedBy: "level",
  observedAs: "pin-powered",
  // A level hangs on what the board was doing.
  acrossJobs: "nothing",
  placed: ["pin-volts"],
  gates: true,
  mostlyOf: CHIPS,
  insteadOf: { procedures: ["supply-rails"], claims: namesPins },
  claims: (column) =>
    holdsFigures(column) && /\b(?:levels?|v ?dc|dc ?v|dc volts?|live|powered|running)\b/.test(column.word),
  refuses: ({ rail, hasPins, volts }) => rail !== undefined && !hasPins && volts.length > 0,
  byContent: (told) => {
    if (!told.hasPins || told.volts.length === 0 || told.rows < 2) return 0;
    const isSaid = /\b(?:levels?|volts?|voltages?|dcv|vdc|powered|power on|running)\b/.test(
      [told.words, ...told.headers].join(" "),
    );
    return areLevels(told) ? (isSaid ? 3 : 1) : 0;
  },
} satisfies KindRecord;

function namesPins({ own, other, words, heading }: ColumnClues): boolean {
  const roles = words.map((word) => specFor(own, word)?.role);
  return (
    !namesRails({ own: other, other: own, words, heading }) && roles.includes("ref") && roles.includes("pin")
  );
}
