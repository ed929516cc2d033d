// What is written of one job to be handed on or printed.

import type { PrintedPage as PaperText } from "../text/printable";
import { writeBill } from "./bill";
import { type ReadImage, type ReportFormat, writeOwnerReport } from "./owner";
import type { ReportSource } from "./owner/model";
import { writeSheet } from "./sheet";

export const PAPERS = ["report", "bill", "sheet"] as const;
/** The owner's report, the bill, or a sheet to fill in at the bench. */
export type Paper = (typeof PAPERS)[number];

/** @param personal whether the owner's name is in it, and in the bill the address: data goes to others, pages to the owner */
export const writePaper = async (
  paper: Paper,
  source: ReportSource,
  format: ReportFormat,
  read: ReadImage,
  personal = format !== "json",
): Promise<PaperText> => {
  if (paper === "bill") return writeBill(source, format, personal);
  return paper === "sheet" ? writeSheet(source, format) : writeOwnerReport(source, format, read, personal);
};
