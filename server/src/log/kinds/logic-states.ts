import { holdsStates } from "../content/look";
import { CHIPS, type KindRecord } from "./kind";

export default {
  id: "logic-states",
  inJob: 160,
  holds: "readings",
  place: "pin",
  judgedBy: "state",
  observedAs: "pin-powered",
  acrossJobs: "expected",
  placed: ["pin-state"],
  alongNets: "states",
  gates: true,
  mostlyOf: CHIPS,
  claims: (column) =>
    holdsStates(column) && /\b(?:states?|logic|probe|h ?\/ ?l|hi ?\/ ?lo|1 ?\/ ?0)\b/.test(column.word),
  byContent: ({ hasPins, states, volts, rows }) =>
    hasPins && states.length > 0 && volts.length === 0 && rows >= 2 ? 2 : 0,
} satisfies KindRecord;
