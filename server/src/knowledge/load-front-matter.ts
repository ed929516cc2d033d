import { defined } from "../base/defined";
import { load } from "./load";
import type { Loaded } from "./loaded";
import { type Data, number, text, texts } from "./shape";
import { isDate } from "./validate";

export const STAGES = [
  "received",
  "diagnosing",
  "waiting-for-parts",
  "repairing",
  "proving",
  "returned",
  "scrapped",
] as const;
export type Stage = (typeof STAGES)[number];

/** A log's front matter. Dates are ISO 8601 days and have been checked against the calendar. */
export interface FrontMatter {
  /** The log format's version. */
  readonly mendlog: number;
  readonly job?: string;
  readonly board?: string;
  readonly revision?: string;
  readonly serial?: string;
  readonly owner?: string;
  readonly received?: string;
  readonly returned?: string;
  readonly stage?: Stage;
  readonly symptoms: readonly string[];
  readonly meter?: string;
  readonly romSet?: string;
  readonly comebackOf?: string;
  /** The board is known to work, and what it reads stands for others of its type. Absent where it is not said. */
  readonly reference?: true;
}

/**
 * Reads the YAML between the fences; `baseOffset` is its place in the log, from which all spans count. The order
 * of the dates is not looked at here: the log's other dates belong to that too.
 */
export function loadFrontMatter(yaml: string, baseOffset = 0): Loaded<FrontMatter> {
  return load("front-matter", yaml, shape, undefined, baseOffset);
}

function shape(data: Data): FrontMatter {
  const date = (value: unknown) => {
    const typed = text(value);
    return typed !== undefined && isDate(typed) ? typed : undefined;
  };
  return defined({
    mendlog: number(data.mendlog) ?? 1,
    symptoms: texts(data.symptoms),
    job: text(data.job),
    board: text(data.board),
    revision: text(data.revision),
    serial: text(data.serial),
    owner: text(data.owner),
    received: date(data.received),
    returned: date(data.returned),
    stage: STAGES.find((stage) => stage === data.stage),
    meter: text(data.meter),
    romSet: text(data["rom-set"]),
    comebackOf: text(data["comeback-of"]),
    reference: data.reference === true ? (true as const) : undefined,
  });
}
