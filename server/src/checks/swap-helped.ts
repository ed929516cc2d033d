import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { untilReplaced } from "./until-replaced";

export default documentCheck({
  code: "swap-helped",
  title: "A known-good part cured the fault",
  severity: "warning",
  scope: "document",
  why: "Where the fault goes with another part in its place, it was that part, its socket or its contacts. A board that went back with the old part in again would come back.",
  remedy:
    "Put the old part in again. If the board works then too, it was the contact, so clean or renew the socket. Otherwise fit a new part, and measure what it drives before it goes in.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Swap test

| Ref | Part   | Result | Then     |
|-----|--------|--------|----------|
| U14 | 74LS04 | cured  | put back |
                 ^^^^^ swap-helped: the part, its socket or its contacts
| U15 | 74LS04 | same   | put back |
`),
      exampleLog(`## Known-good parts

| Ref | Outcome          | Then     |
|-----|------------------|----------|
| U14 | better, less often | put back |
        ^^^^^^^^^^^^^^^^^^ swap-helped: The fault was less with another part at U14
`),
    ],
    good: [
      exampleLog(`## Swap test

| Ref | Part   | Result | Then    |
|-----|--------|--------|---------|
| U14 | 74LS04 | cured  | left in |

## Diode check after repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.57    |
`),
      exampleLog(`## Swap test

| Ref | Result    | Then     |
|-----|-----------|----------|
| U14 | no change | put back |
`),
    ],
  },
  run: (input) => untilReplaced(input, "swap", "swap-helped"),
  noFix: "Only another try tells whether it was the part or its contacts.",
});
