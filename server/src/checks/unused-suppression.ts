import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

/** Filled in by the runner, which alone knows what a suppression hid. */
export default documentCheck({
  code: "unused-suppression",
  title: "A suppression that hides nothing",
  severity: "hint",
  scope: "document",
  why: "A comment that once silenced a finding and no longer does will silence the next, different one.",
  remedy: "Remove the comment, or correct the code it names.",
  examples: {
    bad: [
      exampleLog(`## Diode check

<!-- mendlog-allow diode-out-of-window: seen before -->
                   ^^^^^^^^^^^^^^^^^^^ unused-suppression: hides nothing

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
`),
      exampleLog(`## Diode check

<!-- mendlog-allow diode-out-of-windwo -->
                   ^^^^^^^^^^^^^^^^^^^ unused-suppression: no check
`),
    ],
    good: [
      exampleLog(`## Diode check

<!-- mendlog-allow diode-out-of-window: the clamp diode is off board -->

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 1.42    |
`),
    ],
  },
  run: () => [],
  noFix: "The comment may be one of several codes in a sentence of the writer's own.",
});
