import { defined } from "../base/defined";
import { frontSpan } from "../log/front";
import { nearest } from "../text/nearest";
import { documentCheck } from "./check";
import { replaceWithData } from "./fixes";

export default documentCheck({
  code: "unknown-meter",
  title: "A meter the shop file does not list, or lists without its accuracy",
  severity: "warning",
  scope: "document",
  ofSet: "once",
  why: "The meter's accuracy decides whether a reading near a limit is out or only in doubt. With an unknown meter only the rounding of the last digit is allowed for.",
  remedy: "Correct the id, or add the meter to `mendlog.shop.yaml`.",
  examples: {
    bad: [
      {
        text: `//- mendlog.shop.yaml
mendlog-shop: 1
name: Example bench
meters:
  bench:
    title: Bench meter
    ranges: [{ function: diode, range: 2 V, accuracy: { reading: 1 %, counts: 2 } }]
//- log.md
---
mendlog: 1
meter: bnech
       ^^^^^ unknown-meter: Did you mean bench?
---
`,
        fixes: [
          {
            title: "Change to bench",
            makes: `
 mendlog: 1
-meter: bnech
+meter: bench
 ---
`,
          },
        ],
      },
      `//- mendlog.shop.yaml
mendlog-shop: 1
name: Example bench
meters:
  bench: { title: Bench meter, ranges: [{ function: diode, range: 2 V }] }
//- log.md
---
mendlog: 1
meter: bench
       ^^^^^ unknown-meter: Bench meter is listed without an accuracy
---
`,
    ],
    good: [
      `//- mendlog.shop.yaml
mendlog-shop: 1
name: Example bench
meters:
  bench:
    title: Bench meter
    ranges: [{ function: diode, range: 2 V, accuracy: { reading: 1 %, counts: 2 } }]
//- log.md
---
mendlog: 1
meter: bench
---
`,
    ],
  },
  *run({ doc, ctx, front }) {
    const id = front.meter;
    const span = frontSpan(doc, ["meter"]);
    if (id === undefined || id === "" || !span) return;
    if (ctx.meter) {
      if (ctx.meter.ranges.some((range) => range.accuracy)) return;
      yield {
        span,
        severity: "information",
        fact: `${ctx.meter.title} is listed without an accuracy.`,
        cause: "So only the rounding of the last digit is allowed for.",
        step: "Add the accuracy of its ranges to mendlog.shop.yaml, from its data sheet.",
      };
      return;
    }
    const near = ctx.shop && nearest(id, ctx.shop.value.meters.keys());
    const hint = ctx.shop
      ? near
        ? `Did you mean ${near}?`
        : "Add it under meters in mendlog.shop.yaml."
      : "There is no mendlog.shop.yaml in this workspace yet.";
    yield defined({
      span,
      fact: `No meter "${id}" is described, so its accuracy is not known.`,
      step: hint,
      data: near ? { newText: near } : undefined,
    });
  },
  fixes: { change: (finding) => replaceWithData(finding, (id) => `Change to ${id}`) },
});
