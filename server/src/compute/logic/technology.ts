/** How an input behaves when nothing drives it; `unknown` where no general rule holds. */
export type InputTechnology = "ttl" | "cmos" | "unknown";

const TTL: ReadonlySet<string> = new Set(["TTL", "L", "H", "LS", "S", "AS", "ALS", "F"]);
const CMOS: ReadonlySet<string> = new Set(["HC", "HCT", "AC", "ACT", "4000", "CMOS", "C"]);

/** How a family's inputs behave when nothing drives them, by its id in the library. */
export const inputTechnology = (familyId: string | undefined): InputTechnology =>
  familyId === undefined ? "unknown" : TTL.has(familyId) ? "ttl" : CMOS.has(familyId) ? "cmos" : "unknown";
