import { frontSpan } from "../log/front";
import { warrantyUntil } from "../review/comeback/warranty";
import { documentCheck } from "./check";

const EARLIER = (returned: string, more = "") => `//- logs/2025-081.md
---
mendlog: 1
job: 2025-081
board: example
serial: "01873"
received: 2025-08-01
returned: ${returned}
stage: returned
${more}---

<!-- mendlog-allow stage-ahead-of-evidence: written up on paper -->
<!-- mendlog-allow returned-unproven: written up on paper -->
`;
const SHOP = `//- mendlog.shop.yaml
mendlog-shop: 1
name: Example bench
warranty-days: 180
`;
const COMEBACK = `//- logs/2026-014.md
---
mendlog: 1
job: 2026-014
board: example
serial: "01873"
received: 2026-03-02
comeback-of: 2025-081
`;

export default documentCheck({
  code: "comeback-in-warranty",
  title: "A comeback under warranty",
  severity: "information",
  scope: "document",
  why: "What comes back under warranty for the same fault is not paid for again, and the owner should not be the one to say so.",
  remedy: "Look at what was done then. Bill only what is a new fault.",
  noFix: "Whether it is the same fault is for the technician to say.",
  examples: {
    bad: [
      `${SHOP}${EARLIER("2025-09-20")}${COMEBACK}             ^^^^^^^^ comeback-in-warranty: Job 2025-081 is under warranty until 2026-03-19
---
`,
      `${EARLIER("2025-09-20", "warranty-until: 2026-03-02\n")}${COMEBACK}             ^^^^^^^^ comeback-in-warranty: until 2026-03-02
---
`,
    ],
    good: [
      `${SHOP}${EARLIER("2025-08-20")}${COMEBACK}---
`,
      `${EARLIER("2025-09-20")}${COMEBACK}---
`,
    ],
  },
  *run({ doc, ctx, front, related }) {
    const span = frontSpan(doc, ["comeback-of"]);
    const earlier = related?.named[0];
    if (!span || !earlier || front.received === undefined) return;
    const until = warrantyUntil(earlier, ctx.shop?.value);
    if (until === undefined || until < front.received) return;
    yield {
      span,
      fact: `Job ${earlier.job ?? front.comebackOf} is under warranty until ${until}, and this one came in on ${front.received}.`,
      cause: "For the same fault it is not paid for again.",
      step: "Bill only what is a new fault.",
    };
  },
});
