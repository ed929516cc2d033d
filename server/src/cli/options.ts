// Long, because every option of every command is read in one place, so that none means two things.

import { parseArgs } from "node:util";
import { defined } from "../base/defined";
import type { CheckCode, OwnSettings, Severity } from "../checks/check";
import { readOption } from "../checks/read-option";
import { CHECKS, checkOf } from "../checks/registry";
import type { NewLogFacts } from "../features/new-log/facts";
import { isDate } from "../knowledge/formats";
import type { FailOn } from "../report/model";
import { SEVERITIES } from "../report/outcome";
import { REPORT_FORMATS, type ReportFormat } from "../report/owner/formats";
import type { Paper } from "../report/paper";
import { nearest } from "../text/nearest";
import type { BoardCommandOptions } from "./board/options";
import { parseBoard } from "./board/parse";
import { oneOf, read, Wrong } from "./read-options";
import type { ExportOptions, PoolOptions, StatsOptions } from "./shop/options";
import { parseShop } from "./shop/parse";

export const CHECK_FORMATS = ["human", "json", "sarif"] as const;
export type Format = (typeof CHECK_FORMATS)[number];
export const COLOUR_CHOICES = ["auto", "always", "never"] as const;
export type Colour = (typeof COLOUR_CHOICES)[number];
const FAIL_ON: readonly FailOn[] = [...SEVERITIES, "never"];
const LEVELS: readonly (Severity | "off" | "default")[] = [...SEVERITIES, "off", "default"];

/** What `check` is asked to do; paths are as they were typed. */
export interface CheckOptions {
  readonly paths: readonly string[];
  readonly format: Format;
  readonly output?: string;
  readonly force: boolean;
  readonly failOn: FailOn;
  readonly severity: OwnSettings["severity"];
  /** Numbers that checks go by: the check's code, the option's name, the value. */
  readonly chosen: ReadonlyMap<string, ReadonlyMap<string, number>>;
  /** The path that standard input is checked as. */
  readonly stdinPath?: string;
  readonly colour: Colour;
  readonly quiet: boolean;
  /** Check again after every change. */
  readonly watch: boolean;
  /** Make the fixes that leave no doubt, or tell which they are. */
  readonly fix?: "write" | "dry-run";
  /** A revision of git: only files that changed since then are checked. */
  readonly since?: string;
  /** The folder in which it is kept what logs said and what was found; false for none, absent for the user's own. */
  readonly cache?: string | false;
}

export interface ReportOptions {
  readonly path: string;
  readonly format: ReportFormat;
  readonly output?: string;
  /** Write over a file that is there. */
  readonly force: boolean;
  /** Whether who the owner is stands in it; by the format where that is not said. */
  readonly owner?: boolean;
}

export const LIST_FORMATS = ["human", "json", "csv"] as const;
export type ListFormat = (typeof LIST_FORMATS)[number];

/** Of the commands that list parts. */
export interface ListOptions {
  readonly paths: readonly string[];
  readonly format: ListFormat;
  readonly output?: string;
  /** Write over a file that is there. */
  readonly force: boolean;
}

export const DIAGNOSE_FORMATS = ["human", "json"] as const;

export interface DiagnoseOptions {
  /** The log. */
  readonly path: string;
  readonly format: (typeof DIAGNOSE_FORMATS)[number];
  /** Suspects and explanations listed at most. */
  readonly top: number;
}

export interface NewOptions {
  /** As given, blank ones too. */
  readonly facts: NewLogFacts;
  readonly output?: string;
}

export type Parsed =
  | {
      readonly kind: "help";
      readonly of: "mendlog" | (typeof COMMANDS)[number] | "board draft" | "board import" | "board limits";
    }
  | { readonly kind: "version" }
  | { readonly kind: "check"; readonly options: CheckOptions }
  | { readonly kind: Paper; readonly options: ReportOptions }
  | { readonly kind: "new"; readonly options: NewOptions }
  | { readonly kind: "board"; readonly options: BoardCommandOptions }
  | { readonly kind: "parts" | "order"; readonly options: ListOptions }
  | { readonly kind: "diagnose"; readonly options: DiagnoseOptions }
  | { readonly kind: "export"; readonly options: ExportOptions }
  | { readonly kind: "stats"; readonly options: StatsOptions }
  | { readonly kind: "pool"; readonly options: PoolOptions }
  | { readonly kind: "serve" }
  /** What is wrong with the command, as a sentence. */
  | { readonly kind: "wrong"; readonly message: string };

const COMMANDS = [
  "check",
  "diagnose",
  "new",
  "board",
  "report",
  "bill",
  "sheet",
  "parts",
  "order",
  "stats",
  "export",
  "pool",
  "serve",
] as const;

const wrong = (message: string): Parsed => ({ kind: "wrong", message });

export function parseCommand(argv: readonly string[]): Parsed {
  const [command, ...rest] = argv;
  try {
    if (command === undefined) return wrong(`Say what to do: ${COMMANDS.join(", ")}.`);
    if (command === "--help" || command === "-h" || command === "help")
      return { kind: "help", of: "mendlog" };
    if (command === "--version") return { kind: "version" };
    if (command === "check") return parseCheck(rest);
    if (command === "diagnose") return parseDiagnose(rest);
    if (command === "new") return parseNew(rest);
    if (command === "board") return parseBoard(rest);
    if (command === "report" || command === "bill" || command === "sheet") return parseReport(command, rest);
    if (command === "parts" || command === "order") return parseList(command, rest);
    if (command === "export" || command === "stats" || command === "pool") return parseShop(command, rest);
    if (command === "serve") return parseServe(rest);
    const near = nearest(command, COMMANDS);
    return wrong(
      `There is no command "${command}".${near ? ` Did you mean ${near}?` : ` There are ${COMMANDS.join(", ")}.`}`,
    );
  } catch (error) {
    if (error instanceof Wrong) return wrong(error.message);
    throw error;
  }
}

const CHECK_OPTIONS = {
  format: { type: "string", default: "human" },
  output: { type: "string", short: "o" },
  force: { type: "boolean" },
  "fail-on": { type: "string", default: "warning" },
  severity: { type: "string", multiple: true },
  option: { type: "string", multiple: true },
  stdin: { type: "boolean" },
  "stdin-path": { type: "string" },
  color: { type: "string", default: "auto" },
  quiet: { type: "boolean", short: "q" },
  since: { type: "string" },
  fix: { type: "boolean" },
  "fix-dry-run": { type: "boolean" },
  watch: { type: "boolean" },
  "cache-dir": { type: "string" },
  "no-cache": { type: "boolean" },
  help: { type: "boolean", short: "h" },
} as const;

function parseCheck(args: readonly string[]): Parsed {
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], options: CHECK_OPTIONS, allowPositionals: true, strict: true }),
  );
  if (values.help) return { kind: "help", of: "check" };
  if (values.stdin && positionals.length > 0) throw new Wrong("Give either --stdin or paths, not both.");
  if (values.force && values.output === undefined) throw new Wrong("--force is for --output only.");
  if (values["stdin-path"] !== undefined && !values.stdin)
    throw new Wrong("--stdin-path is for --stdin only.");
  if (values.watch && (values.stdin || values.fix || values.output !== undefined))
    throw new Wrong("--watch goes with neither --stdin, --fix nor --output.");
  if (values.stdin && (values.fix || values["fix-dry-run"]))
    throw new Wrong("--fix is for files, not for --stdin.");
  if (values.fix && values["fix-dry-run"]) throw new Wrong("Give either --fix or --fix-dry-run, not both.");
  if (values.stdin && values.since !== undefined)
    throw new Wrong("Give either --stdin or --since, not both.");
  if (values["no-cache"] && values["cache-dir"] !== undefined)
    throw new Wrong("Give either --cache-dir or --no-cache, not both.");
  const named = [...positionals, values.output, values["stdin-path"], values["cache-dir"], values.since];
  if (named.includes("")) {
    throw new Wrong("A path is empty.");
  }
  return {
    kind: "check",
    options: defined({
      paths: positionals.length > 0 ? positionals : ["."],
      format: oneOf("--format", values.format, CHECK_FORMATS),
      output: values.output,
      force: values.force ?? false,
      failOn: oneOf("--fail-on", values["fail-on"], FAIL_ON),
      severity: severitiesOf(values.severity ?? []),
      chosen: chosenOf(values.option ?? []),
      stdinPath: values.stdin ? (values["stdin-path"] ?? "stdin.md") : undefined,
      colour: oneOf("--color", values.color, COLOUR_CHOICES),
      quiet: values.quiet ?? false,
      since: values.since,
      watch: values.watch ?? false,
      fix: values["fix-dry-run"] ? "dry-run" : values.fix ? "write" : undefined,
      cache: values["no-cache"] ? false : values["cache-dir"],
    }),
  };
}

const REPORT_OPTIONS = {
  owner: { type: "string" },
  format: { type: "string" },
  output: { type: "string", short: "o" },
  force: { type: "boolean" },
  help: { type: "boolean", short: "h" },
} as const;

const PAPER_WORDS: Readonly<Record<Paper, readonly [what: string, verb: string]>> = {
  report: ["report", "report on"],
  bill: ["bill", "write the bill of"],
  sheet: ["bench sheet", "print the tables of"],
};

function parseReport(paper: Paper, args: readonly string[]): Parsed {
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], options: REPORT_OPTIONS, allowPositionals: true, strict: true }),
  );
  if (values.help) return { kind: "help", of: paper };
  const [path, ...more] = positionals;
  if (path === undefined) throw new Wrong(`Name the log to ${PAPER_WORDS[paper][1]}.`);
  if (more.length > 0)
    throw new Wrong(`A ${PAPER_WORDS[paper][0]} is of one log, not of ${positionals.length}.`);
  if (path === "" || values.output === "") throw new Wrong("A path is empty.");
  if (values.force && values.output === undefined) throw new Wrong("--force is for --output only.");
  // What the file is called says what is wanted in it.
  const ending = /\.(html|md|json)$/i.exec(values.output ?? "")?.[1]?.toLowerCase();
  return {
    kind: paper,
    options: defined({
      path,
      format: oneOf("--format", values.format ?? ending ?? "html", REPORT_FORMATS),
      owner: values.owner === undefined ? undefined : oneOf("--owner", values.owner, ["yes", "no"]) === "yes",
      output: values.output,
      force: values.force ?? false,
    }),
  };
}

function parseList(command: "parts" | "order", args: readonly string[]): Parsed {
  const options = {
    all: { type: "boolean" },
    force: { type: "boolean" },
    format: { type: "string", default: "human" },
    output: { type: "string", short: "o" },
    help: { type: "boolean", short: "h" },
  } as const;
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], options, allowPositionals: true, strict: true }),
  );
  if (values.help) return { kind: "help", of: command };
  if (positionals.includes("") || values.output === "") throw new Wrong("A path is empty.");
  if (values.force && values.output === undefined) throw new Wrong("--force is for --output only.");
  if (values.all && command === "order")
    throw new Wrong("order always takes all open jobs; --all is for parts.");
  if (values.all && positionals.length > 0) throw new Wrong("Give either --all or paths, not both.");
  if (command === "parts" && !values.all && positionals.length === 0)
    throw new Wrong("Say which log, or --all for every log below the current folder.");
  return {
    kind: command,
    options: defined({
      paths: positionals.length > 0 ? positionals : ["."],
      format: oneOf("--format", values.format, LIST_FORMATS),
      output: values.output,
      force: values.force ?? false,
    }),
  };
}

function parseDiagnose(args: readonly string[]): Parsed {
  const options = {
    format: { type: "string", default: "human" },
    top: { type: "string", default: "5" },
    help: { type: "boolean", short: "h" },
  } as const;
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], options, allowPositionals: true, strict: true }),
  );
  if (values.help) return { kind: "help", of: "diagnose" };
  const [path, ...more] = positionals;
  if (path === undefined) throw new Wrong("Name the log to diagnose.");
  if (more.length > 0) throw new Wrong(`A diagnosis is of one log, not of ${positionals.length}.`);
  if (path === "") throw new Wrong("A path is empty.");
  if (!/^[1-9]\d{0,3}$/.test(values.top))
    throw new Wrong(`--top takes a number from 1 to 9999, not "${values.top}".`);
  const format = oneOf("--format", values.format, DIAGNOSE_FORMATS);
  return { kind: "diagnose", options: { path, format, top: Number(values.top) } };
}

function parseNew(args: readonly string[]): Parsed {
  const text = { type: "string" } as const;
  const options = {
    board: text,
    job: text,
    owner: text,
    serial: text,
    revision: text,
    symptom: { type: "string", multiple: true },
    meter: text,
    received: text,
    "comeback-of": text,
    output: { type: "string", short: "o" },
    help: { type: "boolean", short: "h" },
  } as const;
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], options, allowPositionals: true, strict: true }),
  );
  if (values.help) return { kind: "help", of: "new" };
  const [stray] = positionals;
  if (stray !== undefined) throw new Wrong(`"${stray}" belongs to no option: say --output for the file.`);
  const { symptom, output, "comeback-of": comebackOf, ...said } = values;
  if (output === "") throw new Wrong("A path is empty.");
  if (said.received !== undefined && !isDate(said.received))
    throw new Wrong(`--received takes a day such as 2026-03-20, not "${said.received}".`);
  const facts = defined({
    ...said,
    symptoms: symptom,
    comebackOf,
  });
  return { kind: "new", options: defined({ facts, output }) };
}

function parseServe(args: readonly string[]): Parsed {
  const options = { stdio: { type: "boolean" }, help: { type: "boolean", short: "h" } } as const;
  const { values } = read(() => parseArgs({ args: [...args], options, strict: true }));
  if (values.help) return { kind: "help", of: "serve" };
  if (!values.stdio)
    throw new Wrong("Say --stdio: standard input and output are the only way to talk to the server.");
  return { kind: "serve" };
}

/** The last word on a check counts. */
const severitiesOf = (texts: readonly string[]): OwnSettings["severity"] => new Map(texts.map(severityOf));

/** The last word on an option counts. */
function chosenOf(texts: readonly string[]): ReadonlyMap<string, ReadonlyMap<string, number>> {
  const chosen = new Map<string, Map<string, number>>();
  for (const text of texts) {
    const [, code, name, value] = /^([^.=]+)\.([^.=]+)=(.+)$/.exec(text) ?? [];
    if (code === undefined || name === undefined || value === undefined) {
      throw new Wrong(`--option takes CODE.NAME=NUMBER, such as ${EXAMPLE.option}.margin=2, not "${text}".`);
    }
    const read = readOption(code, name, Number(value));
    if (!read.ok) throw new Wrong(`--option ${text}: ${read.reason}`);
    chosen.set(code, (chosen.get(code) ?? new Map<string, number>()).set(name, read.value));
  }
  return chosen;
}

/** Checks that the words about a wrong argument name. */
const EXAMPLE = { option: "net-disagreement", severity: "unknown-heading" } as const satisfies Record<
  string,
  CheckCode
>;

function severityOf(text: string): [string, Severity | "off" | "default"] {
  const at = text.indexOf("=");
  if (at < 0) throw new Wrong(`--severity takes CODE=LEVEL, such as ${EXAMPLE.severity}=off, not "${text}".`);
  const code = text.slice(0, at);
  if (!checkOf(code)) {
    const near = nearest(
      code,
      CHECKS.map((check) => check.code),
    );
    throw new Wrong(`There is no check "${code}".${near ? ` Did you mean ${near}?` : ""}`);
  }
  return [code, oneOf(`--severity ${code}=`, text.slice(at + 1), LEVELS)];
}
