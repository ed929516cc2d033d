/** What the report, the bill and the bench sheet are written as. */
export const REPORT_FORMATS = ["html", "md", "json"] as const;
/** A page for a browser or a printer, Markdown, or data. */
export type ReportFormat = (typeof REPORT_FORMATS)[number];
