// Which question to an instrument belongs to a cell, by what its column holds.
import type { ColumnSpec, Procedure } from "../../knowledge/types";
import { positionAt } from "../../log/position";
import type { LogView } from "../view";

export interface Question {
  /** What is measured, as a person would say it: "the drop on the diode range". */
  readonly words: string;
  /** SCPI node behind MEASure and CONFigure: "VOLTage:DC". */
  readonly node: string;
  /** The column's unit where the number sent is to be written in it: "V". */
  readonly unit: string;
  /** True where the column's header carries the unit, so that the cell need not. */
  readonly unitInHeader: boolean;
  /** Typed behind the number's unit, where a plain one would say less than is known: "rms". */
  readonly qualifier?: string;
}

export type Asked =
  | { readonly ok: true; readonly question: Question }
  | { readonly ok: false; readonly reason: string };

const no = (reason: string): Asked => ({ ok: false, reason });

interface Way {
  readonly words: string;
  readonly node: string;
  readonly qualifier?: string;
}

/**
 * SCPI-1999 volume 2, MEASure subsystem (quoted from memory); DIODe and CAPacitance are not in it but usual on bench
 * meters (from memory).
 */
const DIODE: Way = { words: "the drop on the diode range", node: "DIODe" };
const WAYS = {
  dcVolts: { words: "the DC voltage", node: "VOLTage:DC" },
  ohms: { words: "the resistance", node: "RESistance" },
  capacitance: { words: "the capacitance", node: "CAPacitance" },
  frequency: { words: "the frequency", node: "FREQuency" },
} satisfies Record<string, Way>;
/** A meter's alternating range reads the effective value, and the cell is to say so. */
const RIPPLE: Way = { words: "the AC voltage", node: "VOLTage:AC", qualifier: "rms" };

/** What to ask an instrument for the cell at this place of a log, or why it is not asked. */
export function questionAt({ doc }: LogView, offset: number): Asked {
  const position = positionAt(doc, offset);
  if (position.kind !== "cell") return no("Put the cursor into a cell of a table of readings first.");
  const { spec, table, column } = position;
  if (spec?.role !== "reading" || spec.quantity === undefined) {
    return no("A meter cannot fill this cell. Put the cursor into a column of readings.");
  }
  const way = wayOf(spec, table.procedure);
  if (typeof way === "string") return no(way);
  const header = table.columns[column]?.unit;
  return {
    ok: true,
    question: { ...way, unit: header ?? spec.unit ?? "", unitInHeader: header !== undefined },
  };
}

/** The way to measure it, or a sentence on why a meter is not asked. */
function wayOf(spec: ColumnSpec, procedure: Procedure): Way | string {
  switch (spec.quantity) {
    case "voltage":
      if (spec.measure === "ripple") return RIPPLE;
      if (spec.measure === "amplitude")
        return "A meter's AC range reads the effective value, not the swing: read the swing off an oscilloscope and type it.";
      return procedure.meter?.function === "diode" || spec.measure === "diode" ? DIODE : WAYS.dcVolts;
    case "resistance":
      return spec.measure === "esr"
        ? "A meter's ohms range does not read series resistance (ESR): use the ESR meter and type its reading."
        : WAYS.ohms;
    case "capacitance":
      return WAYS.capacitance;
    case "frequency":
      return WAYS.frequency;
    case "current":
      // Leads left in the current jacks are a short across the next rail that is probed.
      return "Current is not read from here: the leads must be moved for it, and across a rail they would short it. Measure it by hand, put the leads back, and type the reading.";
    default:
      return "A meter does not read what this column holds; type the reading.";
  }
}
