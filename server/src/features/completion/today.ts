import type { Span } from "../../text/span";
import type { Completion } from "../types";

/** The day of work, by the editor's own calendar: nothing here looks at a clock. @param gap stands in front of it */
export const today = (span: Span, gap = ""): Completion => ({
  label: "today",
  kind: "value",
  description: "the day by this computer's calendar",
  span,
  newText: `${gap}today`,
  snippet: `${gap}\${CURRENT_YEAR}-\${CURRENT_MONTH}-\${CURRENT_DATE}`,
  // Found by what is typed of a year, too.
  filterText: "today 20",
  preselect: true,
  variables: true,
});
