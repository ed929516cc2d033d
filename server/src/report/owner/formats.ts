/** What the report, the bill and the bench sheet are written as. */
export const REPORT_FORMATS = ["html", "md", "json"] as const;
export type ReportFormat = (typeof REPORT_FORMATS)[number];
