import { hoursIn } from "../log/hours";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

export default documentCheck({
  code: "hours-not-read",
  title: "Hours that are not counted",
  severity: "warning",
  scope: "document",
  ofSet: "once",
  why: "What stands under Hours is what the bill asks for. A line that cannot be read is in no bill, and nobody would notice.",
  remedy:
    'Write a list under the heading "Hours", a line a day: the day, the hours as a decimal number, and what was done, as "- 2026-03-04: 1.5 h readings".',
  noFix: "What was meant only the one who worked can say.",
  examples: {
    bad: [
      exampleLog(`## Hours

- 2026-03-04: 1.5 h readings of the matrix
- 2026-03-05: -2 h sockets
  ^^^^^^^^^^^^^^^^^^^^^^^^ hours-not-read: less than none
- 2026-02-30: 1 h
  ^^^^^^^^^^^^^^^ hours-not-read: no day of the calendar
- 2026-03-06: 30 h
  ^^^^^^^^^^^^^^^^ hours-not-read: a day has 24 hours
- about an hour of soak
  ^^^^^^^^^^^^^^^^^^^^^ hours-not-read: does not begin with a day
`),
    ],
    good: [
      exampleLog(`## Hours

- 2026-03-04: 1.5 h readings of the matrix
- 2026-03-05 0,25 h
`),
      exampleLog(`## Notes

- about an hour of soak
`),
    ],
  },
  *run({ doc }) {
    for (const { span, reason } of hoursIn(doc).faults)
      yield {
        span,
        fact: `These hours are not counted: ${reason}.`,
        step: 'Write the day, the hours as a decimal number and what was done, as "2026-03-04: 1.5 h readings".',
      };
  },
});
