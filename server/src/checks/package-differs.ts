import { statementsOf } from "../log/stated/of-block";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "package-differs",
  title: "A package that the part does not come in",
  severity: "warning",
  scope: "block",
  why: "The number and the package beside it do not go together, so one of them is of another part: the pins would be counted wrongly, or the wrong socket ordered.",
  remedy: "Read the number off the part again and count its legs.",
  examples: {
    bad: [
      exampleLog(`## Parts on the board

| Ref | Device | Package |
|-----|--------|---------|
| U15 | 74LS04 | DIP-16  |
        ^^^^^^ package-differs: U15 is a 74LS04 with 14 pins, but DIP-16 is written beside it
`),
    ],
    good: [
      exampleLog(`## Parts on the board

| Ref | Device | Package |
|-----|--------|---------|
| U15 | 74LS04 | DIP-14  |
| U14 | 74LS04 |         |
`),
    ],
  },
  *run({ block, ctx }) {
    for (const one of statementsOf(block, ctx.library).all) {
      if (one.kind !== "part" || one.device === undefined || one.package === undefined) continue;
      const device = ctx.library.device(one.device)?.device;
      const written = /^\s*(?:DI[PL]|SIP)?[\s-]*(\d{1,2})(?:\s*(?:pins?|legs?|way))?\s*$/i.exec(
        one.package,
      )?.[1];
      if (!device || written === undefined || !/^(?:DIP|SIP)-/.test(device.package.name)) continue;
      if (Number(written) === device.package.pins) continue;
      yield {
        span: one.span,
        fact: `${one.ref} is a ${one.device} with ${device.package.pins} pins, but ${one.package} is written beside it.`,
        step: "Read the number on the part again and count its legs.",
      };
    }
  },
  noFix: "Which of the two is wrong only the part itself tells.",
});
