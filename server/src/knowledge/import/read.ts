// Which reader a file is for, told by what is in it: names are wrong too often.
import type { ImportedBoard, ImportFormat, Importing } from "./imported";
import { readIpcD356 } from "./ipc-d-356";
import { MOST_IMPORTED } from "./limits";
import { readNetlist } from "./netlist";
import { partsListShape, readPartsList } from "./parts-list-csv";
import { readPcb } from "./pcb";

/** Characters at the beginning that tell the format. */
const HEAD = 20_000;

type Reader = (text: string) => Importing<ImportedBoard>;

export type Recognised =
  | { readonly ok: true; readonly format: ImportFormat; readonly read: Reader }
  /** Goes on from the file's name: "is empty". */
  | { readonly ok: false; readonly reason: string };

const CAN_READ =
  "What can be read: IPC-D-356 netlists, netlists that begin with (export, board layouts that begin with (kicad_pcb, and parts lists of separated cells with a column headed Ref or Designator and one headed Value or Part number";

/** The reader for a file's text, without a byte order mark. */
export function recognise(text: string): Recognised {
  if (text.length > MOST_IMPORTED)
    return no(
      `has ${text.length} characters, and ${MOST_IMPORTED} are the most that is read. Export the one board alone`,
    );
  const head = text.slice(0, HEAD);
  if (head.trim() === "") return no("is empty. Export it again");
  if (/[\0-\x08\x0e-\x19\x1b-\x1f]/.test(head)) return no(`is no text but binary data. ${CAN_READ}`);
  const opened = /^\s*\(\s*([^\s()"]*)/.exec(head)?.[1];
  if (opened !== undefined) return ofLists(opened);
  // Its long names may fill the beginning, so the first record is looked for in all of it.
  if (/^(?:[CP]\s|[03]\d\d)/.test(head.trimStart()) && /^3\d7.{17}/m.test(text))
    return { ok: true, format: "ipc-d-356", read: readIpcD356 };
  const shape = partsListShape(text);
  if (shape) return { ok: true, format: "parts-list", read: (of) => readPartsList(of, shape) };
  return no(`is of a kind that is not known here${hint(head)}. ${CAN_READ}`);
}

function ofLists(head: string): Recognised {
  if (head === "kicad_pcb") return { ok: true, format: "pcb", read: readPcb };
  if (head === "export") return { ok: true, format: "netlist", read: readNetlist };
  if (head === "kicad_sch")
    return no(
      "is a schematic, which does not say what is joined. Export its netlist, or take the board layout",
    );
  return no(`begins with (${head.slice(0, 40)}, which is not known here. ${CAN_READ}`);
}

function hint(head: string): string {
  if (/^\s*<\?xml|^\s*<export/.test(head)) return ": it is XML. Export the other kind of netlist";
  if (/^PCBNEW-BOARD/.test(head))
    return ": it is a board layout of the old kind. Save it with a newer version";
  if (/^[^\n]*[,;\t]/.test(head))
    return ", or a parts list without headers. Put a line such as Ref,Value above it";
  return "";
}

const no = (reason: string): Recognised => ({ ok: false, reason });
