// One spoilt file after another: opened, judged, asked about, written out. Nothing may throw, take long, or point past
// the text's end.
import type { Finding } from "../../server/src/checks/check";
import { completeLog } from "../../server/src/features/completion";
import { foldingRanges } from "../../server/src/features/folding";
import { hoverLog } from "../../server/src/features/hover";
import {
  completeKnowledge,
  hoverKnowledge,
  symbolsOfKnowledge,
  tokensInKnowledge,
} from "../../server/src/features/knowledge";
import { tokensOf } from "../../server/src/features/semantic-tokens";
import { symbolsOf } from "../../server/src/features/symbols";
import { REPORT_FORMATS } from "../../server/src/report/owner";
import { PAPERS } from "../../server/src/report/paper";
import type { Service } from "../../server/src/service";
import { applyEdits } from "../../server/src/text/edits";
import type { Span } from "../../server/src/text/span";
import { isMarkdown } from "../../server/src/workspace/host";
import { cpuTime } from "../support/cpu-time";
import type { Texts } from "./sources";
import { type Draw, nat, oneOf, spoilt } from "./texts";
import { begin, remember, uriOf } from "./world";

export interface Spoilt {
  /** The whole workspace. */
  readonly files: Texts;
  /** Which of them is spoilt. */
  readonly path: string;
  /** From 0 to 1: where in it is asked. */
  readonly at: number;
}

export function spoiltFile(all: readonly Texts[], draw: Draw): Spoilt {
  const files = oneOf(draw, all);
  const path = oneOf(draw, Object.keys(files));
  const other = oneOf(draw, Object.values(oneOf(draw, all)));
  return { files: { ...files, [path]: spoilt(files[path]!, draw, other) }, path, at: draw() };
}

/** Milliseconds of the processor that a file of some ten thousand characters may take. */
const MOST_TIME = 1500;

const isIn = (text: string, { start, end }: Span): boolean =>
  Number.isInteger(start) && Number.isInteger(end) && start >= 0 && start <= end && end <= text.length;

function wrongIn(text: string, findings: readonly Finding[]): string | undefined {
  for (const finding of findings) {
    if (finding.code === "check-failed") return `a check failed: ${finding.message}`;
    if (!isIn(text, finding.span)) return `${finding.code} points outside: ${JSON.stringify(finding.span)}`;
    if (finding.message.trim() === "") return `${finding.code} says nothing`;
  }
  return undefined;
}

function wrongInFixes(service: Service, uri: string, text: string, finding: Finding): string | undefined {
  for (const fix of service.fixes(uri, finding)) {
    if (fix.edits.some(({ span }) => !isIn(text, span))) return `a fix of ${finding.code} edits outside`;
    applyEdits(text, fix.edits);
    for (const one of fix.elsewhere ?? []) applyEdits(one.text, one.edits);
  }
  return undefined;
}

function askAbout(service: Service, uri: string, text: string, offset: number): string | undefined {
  const file = service.knowledgeFile(uri);
  const view = file ? undefined : service.view(uri);
  const spans: Span[] = [];
  if (file) {
    hoverKnowledge(file, offset);
    symbolsOfKnowledge(file);
    spans.push(
      ...tokensInKnowledge(file).map(({ span }) => span),
      ...completeKnowledge(file, offset).map(({ span }) => span),
    );
  } else if (view) {
    hoverLog(view, offset);
    symbolsOf(view);
    spans.push(...tokensOf(view).map(({ span }) => span), ...foldingRanges(view).map(({ span }) => span));
    spans.push(...completeLog(view, offset).map(({ span }) => span));
  }
  const astray = spans.find((span) => !isIn(text, span));
  return astray && `an answer points outside: ${JSON.stringify(astray)}`;
}

/** What is wrong with what is made of it; undefined where nothing is. Never throws. */
export async function problemWith({ files, path, at }: Spoilt): Promise<string | undefined> {
  try {
    const { service } = await begin(files);
    const uri = uriOf(path);
    const text = files[path]!;
    let wrong: string | undefined;
    const time = cpuTime(() => {
      service.open(uri, text);
      wrong = wrongIn(text, service.findings(uri));
    });
    if (wrong !== undefined) return wrong;
    if (time > MOST_TIME) return `${time.toFixed(0)} ms for ${text.length} characters`;
    if (service.text(uri) !== text) return "the text that is held is not the text that was opened";
    await service.prepareImages(uri);
    const offset = Math.floor(at * text.length);
    const findings = service.findings(uri);
    const asked = findings[Math.floor(at * findings.length)];
    wrong = askAbout(service, uri, text, offset) ?? (asked && wrongInFixes(service, uri, text, asked));
    if (wrong !== undefined) return wrong;
    // A knowledge file is what logs are judged by.
    for (const [other, theirs] of Object.entries(files)) {
      if (!isMarkdown(other)) continue;
      if (other !== path) service.open(uriOf(other), theirs);
      wrong = wrongIn(theirs, service.findings(uriOf(other)));
      if (wrong !== undefined) return `${other}: ${wrong}`;
    }
    return await wrongOnPaper(service, uri, at);
  } catch (error) {
    return error instanceof Error ? (error.stack ?? error.message) : String(error);
  }
}

/** One file in eight is written out too: a diagnosis costs more than all the rest. */
async function wrongOnPaper(service: Service, uri: string, at: number): Promise<string | undefined> {
  const draw = Math.floor(at * 1e6);
  if (draw % 8 !== 0 || !service.view(uri)) return undefined;
  await remember(service);
  const paper = PAPERS[draw % PAPERS.length]!;
  const written = await service.paper(paper, uri, REPORT_FORMATS[(draw >> 3) % REPORT_FORMATS.length]!);
  return written === undefined || written.trim() === "" ? `the ${paper} is empty` : undefined;
}

const lineCount = (text: string): number => text.split("\n").length;

/** The same with as few lines as it still has a problem with. */
export async function shorterFile(one: Spoilt): Promise<Spoilt> {
  let kept = one;
  for (let size = lineCount(one.files[one.path]!) >> 1; size >= 1; size >>= 1) {
    const all = kept.files[kept.path]!.split("\n");
    for (let at = all.length - size; at >= 0; at -= size) {
      const lines = kept.files[kept.path]!.split("\n");
      lines.splice(at, size);
      const fewer = { ...kept, files: { ...kept.files, [kept.path]: lines.join("\n") } };
      if ((await problemWith(fewer)) !== undefined) kept = fewer;
    }
  }
  return kept;
}

export const someFile = (all: readonly Texts[], draw: Draw): Spoilt =>
  nat(draw, 50) === 0 ? noise(draw) : spoiltFile(all, draw);

/** Characters of all kinds behind a log's first lines. */
function noise(draw: Draw): Spoilt {
  const chars = Array.from({ length: 1 + nat(draw, 3000) }, () => nat(draw, draw() < 0.5 ? 128 : 65536));
  const text = `---\nmendlog: 1\n---\n${String.fromCharCode(...chars)}`;
  return { files: { "log.md": text }, path: "log.md", at: draw() };
}
