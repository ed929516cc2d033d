import { defined } from "../base/defined";
import { sameNumber } from "../judge/stated/parts";
import { pinNumber } from "../judge/test-point";
import { beginDevice, pinsOfCase } from "../knowledge/begin-device";
import { idOf } from "../knowledge/board-file";
import { boardIndex } from "../knowledge/board-index";
import { certainNumbers, doubtText, numberDoubtAdvice } from "../knowledge/doubt-text";
import { numberMeant } from "../knowledge/number-meant";
import { type LogDocument, tablesOf } from "../log/document";
import { boardOfFile, type SaidPart, saidParts } from "../review/said-parts";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

interface Unknown {
  readonly device: string;
  /** Numbers that it may have been meant to be. */
  readonly newTexts: readonly string[];
  readonly box?: string;
  readonly pins: number;
}

export default documentCheck({
  code: "number-not-in-library",
  title: "A part number that the library does not know, or not for certain",
  severity: "information",
  scope: "document",
  why: "A chip's pins, its supply and what it does are known from its number. Without them a reading of it is only a number, and little can be said of it. Letters before a number decide what it is: a TMS4016 is a RAM, and a CD4016 a switch.",
  remedy:
    "Correct the number where it was mistyped or misread. Where it is right, write a device file with the pins as the data sheet has them, or name a number with the same pins.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

| Ref | Device | Pin | Reading |
|-----|--------|-----|---------|
| U14 | 74LSO4 | 1   | 0.58    |
        ^^^^^^ number-not-in-library: Did you mean 74LS04?
`),
        fixes: [
          {
            title: "Change to 74LS04",
            makes: `
 |-----|--------|-----|---------|
-| U14 | 74LSO4 | 1   | 0.58    |
+| U14 | 74LS04 | 1   | 0.58    |
`,
          },
          {
            title: "Begin a device file for 74LSO4 with 8 pins",
            makes: `
//- 74LSO4.device.yaml
+mendlog-device: 1
+id: 74LSO4
+title: 74LSO4 # what it is, such as Hex inverter
+kind: other # logic, memory, processor, interface, analog, transistor, regulator, diode
+families: []
+package: { name: DIP-8, pins: 8 }
+pins: # of each its name and its direction: input, output, three-state, open-collector, supply, ground and so on
+  1: { name: "1", direction: passive }
+  2: { name: "2", direction: passive }
+  3: { name: "3", direction: passive }
+  4: { name: "4", direction: passive }
+  5: { name: "5", direction: passive }
+  6: { name: "6", direction: passive }
+  7: { name: "7", direction: passive }
+  8: { name: "8", direction: passive }
+source: to be filled in, by the data sheet
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Device | Pin | Reading |
|-----|--------|-----|---------|
| U14 | LS04   | 1   | 0.58    |
`),
    ],
  },
  *run({ doc, ctx }) {
    const file = boardOfFile(ctx);
    for (const part of saidParts(doc).values()) {
      const { device, span } = part.first;
      if (device === undefined || ctx.library.device(device)) continue;
      const { ref } = part;
      const listed = file && boardIndex(file).part(ref)?.device;
      // Of a number in the board file it is said there.
      if (listed !== undefined && sameNumber(listed, device, ctx.library)) continue;
      const doubt = ctx.library.doubt(device);
      const meant = doubt ? undefined : numberMeant(device, ctx.library);
      const box = part.words.find((word) => word.package !== undefined)?.package;
      const data: Unknown = defined({
        device,
        newTexts: doubt ? certainNumbers(doubt) : meant === undefined ? [] : [meant],
        box,
        pins: isThreeLegged(ref) ? 3 : pinsOfCase(box, highestPin(part, doc)),
      });
      yield {
        span,
        ...(doubt
          ? {
              fact: `It is not certain what "${device}" is, so ${ref} is not judged by its pins.`,
              cause: `${capital(doubtText(doubt))}.`,
              step: numberDoubtAdvice(doubt),
            }
          : {
              fact: `The library does not know "${device}", so ${ref} is not judged by its pins.`,
              step:
                meant === undefined
                  ? "Look at the number again, or describe it in a device file."
                  : `Did you mean ${meant}?`,
            }),
        data,
      };
    }
  },
  fixes: {
    change({ data, span }) {
      const { newTexts } = data as Unknown;
      return newTexts.map((newText) =>
        defined({
          title: `Change to ${newText}`,
          edits: [{ span, newText }],
          preferred: newTexts.length === 1 ? true : undefined,
        }),
      );
    },
    beginDeviceFile({ data }, { ctx, log }) {
      const { device, box, pins } = data as Unknown;
      const beside = ctx && boardOfFile(ctx) ? ctx.board?.uri : log?.doc.uri;
      if (beside === undefined || !beside.includes("/")) return [];
      return [
        {
          title: `Begin a device file for ${device} with ${pins} pins`,
          edits: [],
          creates: {
            uri: `${beside.slice(0, beside.lastIndexOf("/") + 1)}${encodeURIComponent(idOf(device))}.device.yaml`,
            text: beginDevice(device, box, pins),
          },
        },
      ];
    },
  },
});

const isThreeLegged = (ref: string): boolean => /^(?:Q|TR?|VT|VR|SCR)\d/i.test(ref);

function highestPin({ ref }: SaidPart, doc: LogDocument): number {
  const key = ref.toUpperCase();
  let highest = 0;
  for (const { table } of tablesOf(doc)) {
    for (const { subject } of table.readings) {
      if (subject.ref?.text.toUpperCase() !== key || !subject.pin) continue;
      highest = Math.max(highest, Number(pinNumber(subject.pin.text) ?? 0));
    }
  }
  return highest;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
