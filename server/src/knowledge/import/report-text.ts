// The report of an import in lines for people.
import { FORMAT_WORDS } from "./imported";
import type { FileReport, ImportReport } from "./report";

/** Problems listed at most of one file; the data have more. */
const MOST_LINES = 40;
/** Designators listed at most for one thing. */
const MOST_REFS = 12;

/** Sections of lines; those that would be empty are left out. */
export function reportText(report: ImportReport): string {
  return [
    ...report.files.map(ofFile),
    [matchLine(report), ...unmatched(report)],
    [netLine(report)],
    supplies(report),
    report.conflicts.map(({ file, line, message }) => `${file}, line ${line}: ${message}`),
    left(report),
    ofMerge(report),
  ]
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join("\n")}\n`)
    .join("");
}

function ofFile({ name, format, parts, nets, pins, problems, moreProblems }: FileReport): string[] {
  const unlisted = moreProblems + Math.max(0, problems.length - MOST_LINES);
  return [
    `${name}: ${FORMAT_WORDS[format]}, ${count(parts, "part")}${format === "parts-list" ? "" : `, ${count(nets, "net")}, ${count(pins, "pin")}`}`,
    ...problems
      .slice(0, MOST_LINES)
      .map(({ line, message }) => (line === undefined ? `  ${message}` : `  line ${line}: ${message}`)),
    ...(unlisted > 0 ? [`  and ${unlisted} more like these`] : []),
  ];
}

const matchLine = ({ matched, unmatched, parts }: ImportReport): string =>
  `${count(matched.length, "part")} of ${parts} known to the library, ${unmatched.length} with a number that ${unmatched.length === 1 ? "is" : "are"} not; the others have a value only`;

/** One line a number, with its designators. */
function unmatched({ unmatched }: ImportReport): string[] {
  const groups = new Map<
    string,
    { readonly refs: string[]; readonly value: string; readonly reason: string }
  >();
  for (const { ref, value, reason } of unmatched) {
    const key = `${value}\n${reason}`;
    const group = groups.get(key) ?? { refs: [], value, reason };
    group.refs.push(ref);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ refs, value, reason }) => `  ${some(refs)} ${value}: ${reason}`);
}

const netLine = ({ nets, unconnected }: ImportReport): string =>
  `${count(nets, "net")}${unconnected > 0 ? `; ${count(unconnected, "pin")} connected to nothing left out` : ""}`;

function supplies({ rails, grounds, unknownSupplies }: ImportReport): string[] {
  return [
    ...rails.map(
      ({ name, net, nominal, tolerance, why, weak }) =>
        `rail ${name}${net === name ? "" : ` on net ${net}`}: ${nominal}, ${tolerance}, guessed from ${why}${weak ? "; written as a comment" : ""}`,
    ),
    ...grounds.map(
      ({ net, why, weak }) =>
        `ground ${net}: guessed from ${why}${weak ? "; not written, add it under grounds if it is" : ""}`,
    ),
    ...unknownSupplies.map(
      (net) => `${net} is named like a supply, and nothing tells its voltage: add it under rails`,
    ),
    ...(rails.length === 0 ? ["no rail found: add the board's rails, so that its supplies are judged"] : []),
    ...(grounds.every(({ weak }) => weak) ? ["no ground found by its name: add it under grounds"] : []),
  ];
}

const left = ({ leftOut }: ImportReport): string[] => leftOut.map(({ what, reason }) => `${what} ${reason}`);

function ofMerge({ added, kept, renamed }: ImportReport): string[] {
  if (added === undefined) return [];
  return [
    added === 0
      ? "all of it was in the board file already"
      : `${count(added, "entry", "entries")} added to or completed in the board file`,
    ...renamed.map(({ net, file }) => `net ${net} is ${file} in the board file`),
    ...kept.flatMap(({ section, key, differs }) =>
      differs.map(
        ({ field, file, draft }) =>
          `${section} ${key}${field === "" ? "" : `, ${field}`}: the board file has ${file}, the import ${draft}; the board file stays`,
      ),
    ),
  ];
}

const some = (refs: readonly string[]): string =>
  refs.length <= MOST_REFS
    ? refs.join(", ")
    : `${refs.slice(0, MOST_REFS).join(", ")} and ${refs.length - MOST_REFS} others`;

const count = (n: number, word: string, words = `${word}s`): string => `${n} ${n === 1 ? word : words}`;
