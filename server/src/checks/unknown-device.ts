import { defined } from "../base/defined";
import type { Known } from "../judge/context";
import { scalarText } from "../knowledge/board-file/render";
import { certainNumbers, doubtText, numberDoubtAdvice } from "../knowledge/doubt-text";
import type { Library } from "../knowledge/library";
import { numberMeant } from "../knowledge/number-meant";
import type { Board, Part } from "../knowledge/types";
import { nodeAt } from "../syntax/yaml";
import type { Span } from "../text/span";
import { type BegunDevice, beginFor } from "./begun-device";
import { knowledgeCheck } from "./check";

interface Unknown {
  readonly device: string;
  /** Every place the number stands at. */
  readonly spans: readonly Span[];
  readonly newTexts: readonly string[];
  readonly begun?: BegunDevice;
  /** The keys, where what stands behind them is no number and may be the value instead. */
  readonly keys?: readonly Span[];
}

/** Of more numbers than these that begin as typed none is likelier than another. */
const MOST_BEGUN = 4;

export default knowledgeCheck({
  code: "unknown-device",
  title: "A device in a board file that the library does not know, or not for certain",
  severity: "information",
  scope: "knowledge",
  why: "A chip's pins, its supply and what it does are known from its number. Of a number nobody knows, readings are only numbers, and nothing would say so.",
  remedy:
    "Correct the number where it was mistyped or misread. Where it is right, write a device file with the pins as the data sheet has them. What a part is in words belongs under `value`.",
  examples: {
    bad: [
      {
        text: `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
parts:
  U1: { device: 74LSO4 }
                ^^^^^^ unknown-device: The library does not know "74LSO4", so U1 is not judged by pin
  U2: { device: "74LS999", package: DIP-16 }
                ^^^^^^^^^ unknown-device: Look at the number again
  U3: { device: relay }
                ^^^^^ unknown-device: write it as \`value\`
`,
        fixes: [
          {
            title: "Change to 74LS04",
            makes: `
 parts:
-  U1: { device: 74LSO4 }
+  U1: { device: 74LS04 }
   U2: { device: "74LS999", package: DIP-16 }
`,
          },
          {
            title: "Begin a device file for 74LSO4 with 14 pins",
            makes: `
//- 74LSO4.device.yaml
+mendlog-device: 1
+id: 74LSO4
+title: 74LSO4 # what it is, such as Hex inverter
+kind: other # logic, memory, processor, interface, analog, transistor, regulator, diode
+families: []
+package: { name: DIP-14, pins: 14 }
+pins: # of each its name and its direction: input, output, three-state, open-collector, supply, ground and so on
+  1: { name: "1", direction: passive }
+  2: { name: "2", direction: passive }
+  3: { name: "3", direction: passive }
+  4: { name: "4", direction: passive }
+  5: { name: "5", direction: passive }
+  6: { name: "6", direction: passive }
+  7: { name: "7", direction: passive }
+  8: { name: "8", direction: passive }
+  9: { name: "9", direction: passive }
+  10: { name: "10", direction: passive }
+  11: { name: "11", direction: passive }
+  12: { name: "12", direction: passive }
+  13: { name: "13", direction: passive }
+  14: { name: "14", direction: passive }
+source: to be filled in, by the data sheet
`,
          },
          {
            title: "Begin a device file for 74LS999 with 16 pins",
            makes: `
//- 74LS999.device.yaml
+mendlog-device: 1
+id: 74LS999
+title: 74LS999 # what it is, such as Hex inverter
+kind: other # logic, memory, processor, interface, analog, transistor, regulator, diode
+families: []
+package: { name: DIP-16, pins: 16 }
+pins: # of each its name and its direction: input, output, three-state, open-collector, supply, ground and so on
+  1: { name: "1", direction: passive }
+  2: { name: "2", direction: passive }
+  3: { name: "3", direction: passive }
+  4: { name: "4", direction: passive }
+  5: { name: "5", direction: passive }
+  6: { name: "6", direction: passive }
+  7: { name: "7", direction: passive }
+  8: { name: "8", direction: passive }
+  9: { name: "9", direction: passive }
+  10: { name: "10", direction: passive }
+  11: { name: "11", direction: passive }
+  12: { name: "12", direction: passive }
+  13: { name: "13", direction: passive }
+  14: { name: "14", direction: passive }
+  15: { name: "15", direction: passive }
+  16: { name: "16", direction: passive }
+source: to be filled in, by the data sheet
`,
          },
          {
            title: "Write it as the value",
            makes: `
   U2: { device: "74LS999", package: DIP-16 }
-  U3: { device: relay }
+  U3: { value: relay }
`,
          },
        ],
      },
      {
        text: `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
parts:
  Q1: { device: 2N390, package: TO-92 }
                ^^^^^ unknown-device: Did you mean 2N3904 or 2N3906?
  Q2: { device: 2N390 }
`,
        fixes: [
          {
            title: "Change to 2N3904",
            makes: `
 parts:
-  Q1: { device: 2N390, package: TO-92 }
-  Q2: { device: 2N390 }
+  Q1: { device: 2N3904, package: TO-92 }
+  Q2: { device: 2N3904 }
`,
          },
          {
            title: "Change to 2N3906",
            makes: `
 parts:
-  Q1: { device: 2N390, package: TO-92 }
-  Q2: { device: 2N390 }
+  Q1: { device: 2N3906, package: TO-92 }
+  Q2: { device: 2N3906 }
`,
          },
          {
            title: "Begin a device file for 2N390 with 3 pins",
            makes: `
//- 2N390.device.yaml
+mendlog-device: 1
+id: 2N390
+title: 2N390 # what it is, such as Hex inverter
+kind: other # logic, memory, processor, interface, analog, transistor, regulator, diode
+families: []
+package: { name: TO-92, pins: 3 }
+pins: # of each its name and its direction: input, output, three-state, open-collector, supply, ground and so on
+  1: { name: "1", direction: passive }
+  2: { name: "2", direction: passive }
+  3: { name: "3", direction: passive }
+source: to be filled in, by the data sheet
`,
          },
        ],
      },
    ],
    good: [
      `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
parts:
  U1: { device: SN74LS04N }
  D1: { device: zener, value: BZX 5V1 }
  K1: { value: 12 V relay }
`,
    ],
  },
  *run(input) {
    if (input.kind !== "board" || !input.file) return;
    const { value: board, loaded } = input.file as Known<Board>;
    const { library } = input.knowledge;
    for (const [device, parts] of byDevice(board)) {
      const doubt = library.doubt(device);
      const newTexts = doubt ? certainNumbers(doubt) : numbersMeant(device, library);
      // Pins are known of a 74SL04 too, but nobody made one.
      if (library.device(device) && newTexts.length === 0) continue;
      const places = parts.flatMap((part) => {
        const found = nodeAt(loaded.tree, ["parts", part.ref, "device"]);
        return found?.keySpan ? [{ part, span: found.valueSpan, key: found.keySpan }] : [];
      });
      const [first, ...others] = places;
      if (!first) continue;
      const isWord = !/\d/.test(device);
      const data: Unknown = defined({
        device,
        spans: places.map(({ span }) => span),
        newTexts,
        begun: isWord ? undefined : beginFor(device, parts, board, input),
        keys:
          isWord && parts.every(({ value }) => value === undefined)
            ? places.map(({ key }) => key)
            : undefined,
      });
      yield defined({
        span: first.span,
        ...(doubt
          ? {
              fact: `It is not certain what "${device}" is, so ${whose(parts)} not judged by pin.`,
              cause: `${capital(doubtText(doubt))}.`,
              step: numberDoubtAdvice(doubt),
            }
          : {
              fact: `The library does not know "${device}", so ${whose(parts)} not judged by pin.`,
              step: hint(device, newTexts),
            }),
        data,
        related:
          others.length > 0
            ? others.map(({ part, span }) => ({
                uri: input.uri,
                span,
                message: `${part.ref} has it too`,
              }))
            : undefined,
      });
    }
  },
  fixes: {
    change({ data }) {
      const { spans, newTexts } = data as Unknown;
      return newTexts.map((newText) =>
        defined({
          title: `Change to ${newText}`,
          edits: spans.map((span) => ({ span, newText: scalarText(newText) })),
          preferred: newTexts.length === 1 ? true : undefined,
        }),
      );
    },
    writeAsValue({ data }) {
      const { keys } = data as Unknown;
      const edits = keys?.map((span) => ({ span, newText: "value" }));
      return edits ? [{ title: "Write it as the value", edits }] : [];
    },
    beginDeviceFile({ data }) {
      const { device, begun } = data as Unknown;
      if (!begun) return [];
      const { pins, ...creates } = begun;
      return [{ title: `Begin a device file for ${device} with ${pins} pins`, edits: [], creates }];
    },
  },
});

function byDevice(board: Board): ReadonlyMap<string, readonly Part[]> {
  const found = new Map<string, Part[]>();
  for (const part of board.parts.values()) {
    if (part.device === undefined || part.device.trim() === "") continue;
    // A quote or a brace that was left out is told of as that.
    if (/["{}[\]]/.test(part.device)) continue;
    const same = found.get(part.device);
    if (same) same.push(part);
    else found.set(part.device, [part]);
  }
  return found;
}

function whose(parts: readonly Part[]): string {
  const [first, second] = parts.map(({ ref }) => ref);
  if (parts.length === 1) return `${first} is`;
  return parts.length === 2 ? `${first} and ${second} are` : `${first} and ${parts.length - 1} others are`;
}

/** The one number a slip made it of; else the few that begin like it, as one whose last figure is not typed yet. */
function numbersMeant(device: string, library: Library): readonly string[] {
  const meant = numberMeant(device, library);
  if (meant !== undefined) return [meant];
  if (library.device(device)) return [];
  const begun = /\d/.test(device) ? library.devicesMatching(device).map(({ typed }) => typed) : [];
  return begun.length <= MOST_BEGUN ? begun : [];
}

function hint(device: string, newTexts: readonly string[]): string {
  if (newTexts.length > 0) return `Did you mean ${newTexts.join(" or ")}?`;
  return /\d/.test(device)
    ? "Look at the number again, or describe the device in a file of its own."
    : "If it is a word for what the part is, write it as `value`.";
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
