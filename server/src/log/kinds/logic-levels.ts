import { specFor } from "../headers";
import { CHIPS, type KindRecord, type ToldByColumns } from "./kind";
import { namesRails } from "./supply-rails";

export default {
  id: "logic-levels",
  holds: "readings",
  place: "pin",
  judgedBy: "level",
  observedAs: "pin-powered",
  // A level hangs on what the board was doing.
  acrossJobs: "nothing",
  gates: true,
  mostlyOf: CHIPS,
  insteadOf: { procedures: ["supply-rails"], claims: namesPins },
} satisfies KindRecord;

function namesPins({ own, other, words, heading }: ToldByColumns): boolean {
  const roles = words.map((word) => specFor(own, word)?.role);
  return (
    !namesRails({ own: other, other: own, words, heading }) && roles.includes("ref") && roles.includes("pin")
  );
}
