// What a job put other parts in the place of. Kept with the job: its rows of work are packed away once its log is closed.
import { memo } from "../../base/memo";
import type { LogSummary } from "../../log/summary";

interface Replaced {
  /** Designators in capitals. */
  readonly places: ReadonlySet<string>;
  /** Numbers of the parts that were put in, as typed in capitals. */
  readonly numbers: ReadonlySet<string>;
}

/** "74ls04 " is "74LS04". */
export const plainNumber = (part: string): string => part.trim().toUpperCase();

const replacedOf = memo(({ work }: LogSummary): Replaced => {
  const rows = work.filter(({ replaced }) => replaced);
  return {
    places: new Set(rows.flatMap(({ ref, also = [] }) => (ref ? [ref.toUpperCase(), ...also] : []))),
    numbers: new Set(rows.flatMap(({ part }) => (part ? [plainNumber(part)] : []))),
  };
});

/** Every designator in capitals at which a job put another part to stay, once. */
export const replacedIn = (job: LogSummary): ReadonlySet<string> => replacedOf(job).places;

/** Every number, as typed in capitals, of the parts that took another's place. */
export const numbersIn = (job: LogSummary): ReadonlySet<string> => replacedOf(job).numbers;
