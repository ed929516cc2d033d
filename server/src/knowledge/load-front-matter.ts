import { defined } from "../base/defined";
import type { YamlPath } from "../syntax/yaml";
import { isDate } from "./formats";
import { load } from "./load";
import type { Loaded } from "./loaded";
import { array, type Data, number, record, shapeMap, text, texts } from "./shape";

export const STAGES = [
  "received",
  "diagnosing",
  "waiting-for-approval",
  "waiting-for-parts",
  "repairing",
  "proving",
  "returned",
  "scrapped",
] as const;
/** Where the job stands, from "received" to "returned", or "scrapped". */
export type Stage = (typeof STAGES)[number];

/** A log's front matter. Dates are ISO 8601 days and have been checked against the calendar. */
export interface FrontMatter {
  /** The log format's version. */
  readonly mendlog: number;
  readonly job?: string;
  readonly board?: string;
  /** Of a job whose boards share one log; never empty. They stand in place of `board`. */
  readonly boards?: readonly BoardOfSet[];
  readonly revision?: string;
  readonly serial?: string;
  readonly owner?: string;
  /** Personal, as all of it and the address below are: in no export unless it is asked for. */
  readonly contact?: Contact;
  readonly returnAddress?: string;
  /** In the owner's words. */
  readonly complaint?: string;
  /** Decimal text in the shop's currency, tax included. */
  readonly spendingLimit?: string;
  readonly approval?: Approval;
  readonly received?: string;
  readonly returned?: string;
  readonly stage?: Stage;
  readonly symptoms: readonly string[];
  readonly meter?: string;
  readonly romSet?: string;
  readonly comebackOf?: string;
  /** The board is known to work, and what it reads stands for others of its type. Absent where it is not said. */
  readonly reference?: true;
  /** Pieces taken from the shop's stock for this job, by the name the stock has. */
  readonly stockTaken?: ReadonlyMap<string, number>;
  /** ISO 8601 day, the last of it. */
  readonly warrantyUntil?: string;
}

/** One board of a set, with what the front matter says of it alone. */
export interface BoardOfSet {
  /** What headings call it; of a list the id itself. */
  readonly name: string;
  readonly board: string;
  readonly revision?: string;
  readonly serial?: string;
  readonly romSet?: string;
  /** Where the id stands. */
  readonly path: YamlPath;
}

export interface Contact {
  readonly phone?: string;
  readonly email?: string;
  readonly note?: string;
}

/** When the owner was asked for more than the limit and what was answered; ISO 8601 days. */
export interface Approval {
  readonly asked?: string;
  readonly agreed?: string;
  readonly refused?: string;
  /** Decimal text; absent where all was agreed to. */
  readonly upTo?: string;
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
  const contact = record(data.contact);
  const approval = record(data.approval);
  return defined({
    mendlog: number(data.mendlog) ?? 1,
    symptoms: texts(data.symptoms),
    job: text(data.job),
    board: text(data.board),
    boards: boardsOf(data.boards),
    revision: text(data.revision),
    serial: text(data.serial),
    owner: text(data.owner),
    received: date(data.received),
    returned: date(data.returned),
    stage: STAGES.find((stage) => stage === data.stage),
    meter: text(data.meter),
    romSet: text(data["rom-set"]),
    comebackOf: text(data["comeback-of"]),
    contact:
      data.contact === undefined
        ? undefined
        : defined({ phone: text(contact.phone), email: text(contact.email), note: text(contact.note) }),
    returnAddress: text(data["return-address"]),
    complaint: text(data.complaint),
    spendingLimit: text(data["spending-limit"]),
    approval:
      data.approval === undefined
        ? undefined
        : defined({
            asked: date(approval.asked),
            agreed: date(approval.agreed),
            refused: date(approval.refused),
            upTo: text(approval["up-to"]),
          }),
    stockTaken: data["stock-taken"] === undefined ? undefined : shapeMap(data["stock-taken"], number),
    warrantyUntil: date(data["warranty-until"]),
    reference: data.reference === true ? (true as const) : undefined,
  });
}

/** Undefined where none is named. An entry without an id is left out: a problem says so. */
function boardsOf(data: unknown): readonly BoardOfSet[] | undefined {
  const boards = Array.isArray(data)
    ? array(data).flatMap((entry, at): BoardOfSet[] => {
        const board = text(entry);
        return board ? [{ name: board, board, path: ["boards", at] }] : [];
      })
    : Object.entries(record(data)).flatMap(([name, entry]): BoardOfSet[] => {
        const own = record(entry);
        const [board, path] = text(entry)
          ? [text(entry), ["boards", name]]
          : [text(own.board), ["boards", name, "board"]];
        if (!board) return [];
        const { revision, serial } = own;
        return [
          defined<BoardOfSet>({
            name,
            board,
            revision: text(revision),
            serial: text(serial),
            romSet: text(own["rom-set"]),
            path,
          }),
        ];
      });
  return boards.length > 0 ? boards : undefined;
}
