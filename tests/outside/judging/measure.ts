// Reads a set of readings with the verdicts a senior technician gives (first.txt says how they stand there), lays each
// scene out as a log, and tells how often the program's verdict is among those that would do.

import { readFileSync } from "node:fs";
import { judgeBlock } from "../../../server/src/judge";
import { words } from "../../support/words";
import { openWorld } from "../../support/workspace";

export interface Case {
  readonly kind: string;
  readonly ref: string;
  readonly device: string;
  readonly pin: string;
  readonly typed: string;
  readonly verdicts: readonly string[];
  readonly reason: string;
}

export interface Scene {
  readonly title: string;
  /** The board file's lines; none where the log is alone. */
  readonly board: readonly string[];
  readonly cases: readonly Case[];
}

export interface Outcome extends Case {
  readonly scene: string;
  readonly got: string;
  readonly sentence: string;
}

const HEADINGS: Readonly<Record<string, string>> = {
  rail: "Supply rails",
  diode: "Diode check",
  ohms: "Resistance to ground",
  level: "Logic levels",
  state: "Logic states",
  be: "Transistor junctions",
  bc: "Transistor junctions",
  ce: "Transistor junctions",
  eb: "Transistor junctions",
};

export function readScenes(file: URL): Scene[] {
  const scenes: { title: string; board: string[]; cases: Case[] }[] = [];
  for (const line of readFileSync(file, "utf8").split("\n")) {
    if (line.startsWith("== ")) scenes.push({ title: line.slice(3), board: [], cases: [] });
    const scene = scenes.at(-1);
    const [kind = "", ...cells] = line.split("|").map((cell) => cell.trim());
    if (!scene || line.startsWith("#") || !cells.length) continue;
    if (kind === "board") scene.board.push(line.slice(line.indexOf("|") + 1).trim());
    else {
      const [place = "", pin = "", typed = "", verdicts = "", reason = ""] = cells;
      if (!HEADINGS[kind] || !/\[.+\]$/.test(reason)) throw new Error(`not a reading: ${line}`);
      const [ref = "", device = ""] = kind === "rail" ? [place] : place.split(" ");
      scene.cases.push({ kind, ref, device, pin, typed, verdicts: verdicts.split("/"), reason });
    }
  }
  return scenes;
}

const row = (cells: readonly string[]) => `| ${cells.join(" | ")} |\n`;

function tableOf(kind: string, cases: readonly Case[]): string {
  const header =
    kind === "rail"
      ? ["Rail", "Reading"]
      : /^[bce]{2}$/.test(kind)
        ? ["Ref", "Device", { be: "B-E", bc: "B-C", ce: "C-E", eb: "E-B" }[kind] ?? ""]
        : ["Ref", "Device", "Pin", kind === "state" ? "State" : "Reading"];
  const rows = cases.map(({ ref, device, pin, typed }) =>
    row(header.map((name) => ({ Rail: ref, Ref: ref, Device: device, Pin: pin })[name] ?? typed)),
  );
  return `## ${HEADINGS[kind]}\n\n${row(header)}${row(header.map(() => "-"))}${rows.join("")}\n`;
}

export async function measure(scene: Scene): Promise<Outcome[]> {
  const kinds = [...new Set(scene.cases.map(({ kind }) => kind))].sort(
    (a, b) => Number(b === "rail") - Number(a === "rail"),
  );
  const groups = kinds.map((kind) => scene.cases.filter((each) => each.kind === kind));
  const body = groups.map((group, at) => tableOf(kinds[at] ?? "", group)).join("");
  const board = scene.board.length
    ? `//- scene.board.yaml\nmendlog-board: 1\nid: scene\ntitle: Scene\nsource: invented for the tests\n${scene.board.join("\n")}\n`
    : "";
  const { service } = await openWorld(
    `${board}//- log.md\n---\nmendlog: 1\n${board && "board: scene\n"}---\n\n${body}`,
  );
  const view = service.view("mem:/ws/log.md");
  if (!view) throw new Error("not a log");
  const found = service.findings("mem:/ws/log.md").filter(({ severity }) => severity !== "hint");
  const judged = view.doc.blocks.flatMap(({ start, block }) =>
    [...judgeBlock(block, view.ctx).values()].map((each) => {
      const { span } = each.reading.cell;
      // Gates are told by all their pins together, which no reading's own verdict does.
      const isTold = found.some(({ span: at }) => at.start < start + span.end && at.end > start + span.start);
      return each.verdict === "unjudged" && isTold ? { ...each, verdict: "out-of-limits" } : each;
    }),
  );
  const cases = groups.flat();
  if (judged.length !== cases.length)
    throw new Error(`${scene.title}: ${judged.length} of ${cases.length} readings were read`);
  return cases.map((each, at) => ({
    ...each,
    scene: scene.title,
    got: judged[at]?.verdict ?? "none",
    sentence: words(judged[at]) ?? "",
  }));
}

const REPORTED = new Set(["impossible", "out-of-limits", "suspect"]);
export const agrees = ({ verdicts, got }: Outcome) => verdicts.includes(got);
/** Reported though nothing is the matter. */
export const isFalse = ({ verdicts, got }: Outcome) =>
  REPORTED.has(got) && !verdicts.some((each) => REPORTED.has(each));

export const told = (outcomes: readonly Outcome[]): string =>
  outcomes
    .filter((each) => !agrees(each))
    .map(
      (each) =>
        `${isFalse(each) ? "FALSE " : ""}${each.scene} | ${each.kind} ${each.ref} ${each.device} ${each.pin} at ${each.typed}: ${each.got}, not ${each.verdicts.join("/")} (${each.reason})\n      ${each.sentence}`,
    )
    .join("\n");
