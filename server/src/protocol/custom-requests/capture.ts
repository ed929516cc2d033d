// A bench meter's readings: what to ask it, and what its answer is in a cell.
import type { ReadingVerdict } from "../../features/capture";
import type { LinePosition } from "../../text/line-index";
import type { OwnRequest } from "./request";
import type { AtPosition } from "./typing";

/** What cannot be done, in words for the person. */
export interface CaptureRefused {
  readonly ok: false;
  readonly reason: string;
}

/** What an instrument is to measure for the cell at the cursor. */
export interface MeterQuestion {
  readonly ok: true;
  /** SCPI node behind MEASure and CONFigure, short form: "VOLT:DC". */
  readonly node: string;
  /** What is measured: "the drop on the diode range". */
  readonly words: string;
}

/** Which question an instrument is to be asked for a cell. */
export const METER_QUESTION: OwnRequest<AtPosition, MeterQuestion | CaptureRefused> = {
  method: "mendlog/meterQuestion",
};

export interface MeterAnswer extends AtPosition {
  /** As the instrument sent it, without its line end. */
  readonly answer: string;
  /** Significant digits at most. */
  readonly digits: number;
}

/** What the instrument's answer is as the text of the cell. */
export const METER_READING: OwnRequest<
  MeterAnswer,
  { readonly ok: true; readonly text: string } | CaptureRefused
> = {
  method: "mendlog/meterReading",
};

/** A reading's verdict as it is shown at the cell; `words` is short, `sentence` has the numbers and limits. */
export interface ShownVerdict {
  readonly range: { readonly start: LinePosition; readonly end: LinePosition };
  readonly verdict: ReadingVerdict["verdict"];
  /** The verdict's shape. */
  readonly mark: string;
  readonly words: string;
  readonly sentence: string;
}

/** The verdict of the reading at a place. */
export const VERDICT: OwnRequest<AtPosition, ShownVerdict> = { method: "mendlog/verdict" };
