// The first thing offered in an empty file: all that a file of its kind begins with, laid out to be gone through by Tab.
import type { SchemaKind } from "../../../knowledge/schema";
import { schemaLine } from "../../../knowledge/schema-line";
import { md } from "../../../text/markdown";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import { literal } from "../../shared/snippet-text";
import type { Completion } from "../../types";
import { mapAt, type YamlCursor } from "../place";
import { insertion } from "./insert";

interface WholeFile {
  readonly label: string;
  readonly about: string;
  /** With tab stops; what stands in them is a file without a finding as it is. */
  readonly snippet: readonly string[];
}

const WHOLE: Partial<Readonly<Record<SchemaKind, WholeFile>>> = {
  board: {
    label: "a new board",
    about:
      "Identity, one rail, one part, the ground net, one symptom and the proving list. The rest is added key by key.",
    snippet: [
      "mendlog-board: 1",
      // biome-ignore-start lint/suspicious/noTemplateCurlyInString: tab stops of a snippet
      "id: ${1:my-board}",
      "title: ${2:My board}",
      "maker: ${3:unknown}",
      "grounds: [GND]",
      "rails:",
      '  "${4:+5V}": { nominal: ${5:5 V}, tolerance: ${6:5 %}, net: ${7:VCC} }',
      "circuits:",
      "  ${8:cpu}: { title: ${9:Processor} }",
      "parts:",
      "  ${10:U1}: { device: ${11:74LS04}, circuit: ${8:cpu} }",
      "nets:",
      "  GND: [${10:U1}.${12:7}]",
      "  ${7:VCC}: [${10:U1}.${13:14}]",
      "symptoms:",
      "  ${14:dead}: { title: ${15:Does nothing}, circuits: [${8:cpu}] }",
      "proving:",
      "  - { id: rails, title: Rails on load, procedure: supply-rails }",
      "$0",
    ],
  },
  shop: {
    label: "a new shop file",
    about: "The shop's name, one meter with its accuracy, and one part in stock.",
    snippet: [
      "mendlog-shop: 1",
      "name: ${1:My bench}",
      "currency: ${2:EUR}",
      "meters:",
      "  ${3:hand}:",
      "    title: ${4:Hand meter}",
      "    ranges:",
      "      - { function: diode, range: ${5:2 V}, resolution: ${6:1 mV}, accuracy: { reading: ${7:1 %}, counts: ${8:2} }, test-voltage: ${9:2.8 V} }",
      "      - { function: dc-volts, range: ${10:20 V}, resolution: ${11:10 mV}, accuracy: { reading: ${12:0.5 %}, counts: ${13:1} } }",
      "stock:",
      '  - { part: ${14:74LS04}, quantity: ${15:1}, price: "${16:0.60}" }',
      "$0",
      // biome-ignore-end lint/suspicious/noTemplateCurlyInString: tab stops of a snippet
    ],
  },
};

/** Nothing once the file has a key. */
export function wholeFile(file: KnowledgeFile, place: YamlCursor): readonly Completion[] {
  const whole = WHOLE[file.kind];
  if (!whole || (mapAt(file, [])?.entries.length ?? 0) > 0) return [];
  const eol = file.text.includes("\r\n") ? "\r\n" : "\n";
  const head = schemaLine(file.kind).replace("\n", eol);
  const snippet = whole.snippet.join(eol);
  return [
    insertion(file, place, "", {
      label: whole.label,
      kind: "table",
      text: head + plain(snippet),
      snippet: literal(head) + snippet,
      description: "the whole file, laid out",
      documentation: md(whole.about),
    }),
  ];
}

const plain = (snippet: string): string => snippet.replace(/\$\{\d+:([^}]*)\}/g, "$1").replace(/\$\d+/g, "");
