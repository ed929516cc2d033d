import { defined } from "../base/defined";
import { reviewDeviceStates } from "../judge/logic-states";
import { statesByRef } from "../judge/nets/block-nets";
import { pinTestPoint } from "../judge/test-point";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { placesOfNet } from "./on-net";

export default blockCheck({
  code: "logic-contradiction",
  title: "An output that contradicts its inputs",
  severity: "warning",
  scope: "block",
  why: "Where the recorded inputs of a gate leave its output only one state and it shows another, the gate is at fault, or something else on its net holds the output. Unknown and moving inputs are given the benefit of the doubt.",
  remedy:
    "Check that the states were recorded at the same moment and the supply is right. Then cut the output free (lift the pin, or pull the chips that share the net) to tell the gate from what it drives.",
  examples: {
    bad: [
      exampleLog(`## Logic states

| Ref | Pin | State |
|-----|-----|-------|
| U14 | 1   | H     |
| U14 | 2   | H     |
              ^ logic-contradiction: U14
`),
    ],
    good: [
      exampleLog(`## Logic states

| Ref | Pin | State   |
|-----|-----|---------|
| U14 | 1   | H       |
| U14 | 2   | L       |
| U14 | 3   | pulsing |
| U14 | 4   | pulsing |
| U14 | 6   | L       |
`),
    ],
  },
  *run({ block, ctx }) {
    for (const { place, states } of statesByRef(block, ctx).values()) {
      for (const { pins, verdict, says } of reviewDeviceStates(place, states, ctx)) {
        // One finding a contradiction, at the first of its outputs that was recorded.
        for (const pin of pins.filter((p) => states.has(p)).slice(0, 1)) {
          const reading = states.get(pin)?.reading;
          if (!reading) continue;
          yield defined({
            span: reading.cell.span,
            severity: verdict === "suspect" ? ("information" as const) : undefined,
            ...says,
            net: pinTestPoint(place, pin, ctx.board?.value).net,
            restsOn: place.ref,
            related: placesOfNet(pinTestPoint(place, pin, ctx.board?.value).net, ctx),
          });
        }
      }
    }
  },
  noFix: "The states are what was seen; the fault is on the board.",
});
