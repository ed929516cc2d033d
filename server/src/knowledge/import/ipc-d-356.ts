// IPC-D-356 and IPC-D-356A: bare board test data, a record a line, its fields told by their columns. The layout is from
// memory, and held against what Debian's pcb-rnd writes (tests/outside/import). Taken from it: which pin of which part is
// on which net. Coordinates, holes, vias and conductors are not looked at, so the units do not matter.
//
//   columns  1-3   317 through hole, 327 surface mount, 367 hole without a connection, 307 blind or buried via,
//                  017/027/... goes on with the record before it, 999 end of the file; C comment, P parameter
//            4-17  net name; N/C is not connected; NNAMEn is a long name given by a "P  NNAMEn" record
//           18-20  blank
//           21-26  designator, or VIA
//           27     -
//           28-31  pin
//           32     M in the middle of a net, else blank
import { type BoardBuilder, boardBuilder } from "./builder";
import type { ImportedBoard, Importing } from "./imported";
import { eachLine } from "./lines";

interface State {
  readonly builder: BoardBuilder;
  readonly aliases: Map<string, { readonly name: string; readonly line: number }>;
  title?: string;
  /** Line of the record 999. */
  end?: number;
  /** The record before was a test record, which 0x7 goes on with. */
  inRecord: boolean;
  behind: number;
  /** Names that are certainly cut off, and those that may be, by their first line. */
  readonly cut: Map<string, number>;
  readonly full: Map<string, number>;
}

/** Columns that a net's name has; writers without long names cut it off there. */
const NAME_COLUMNS = 14;

/** Reads the pins and nets. Parts have no values in it: a parts list imported along gives them. */
export function* readIpcD356(text: string): Importing<ImportedBoard> {
  const builder = boardBuilder("ipc-d-356", false);
  const state: State = {
    builder,
    aliases: new Map(),
    inRecord: false,
    behind: 0,
    cut: new Map(),
    full: new Map(),
  };
  let lines = 0;
  // Long names may be given behind the records that use them, and they are few: they are gathered first.
  yield* eachLine(text, ({ text: line, number }) => {
    if (line.startsWith("P")) parameter(line, number, state);
    lines = number;
    return true;
  });
  yield* eachLine(text, ({ text: line, number, ended }) => {
    if (state.end !== undefined) state.behind += line.trim() === "" ? 0 : 1;
    else record(line, number, ended, state);
    return !builder.full;
  });
  if (!builder.full) sayEnd(state, lines);
  return builder.build(state.title);
}

function sayEnd({ builder, end, behind, cut, full }: State, lines: number): void {
  sayCut(cut, full, builder);
  if (end === undefined)
    builder.problem(
      "lost",
      `The file ends in line ${lines} without its last record 999: it was probably cut off. Everything before was read; export or copy the file again.`,
      lines,
    );
  else if (behind > 0)
    builder.problem(
      "lost",
      `${behind} lines are behind the record 999, which ends the file, and were not read. Split the file if two boards are in it.`,
      end + 1,
    );
}

function sayCut(cut: State["cut"], full: State["full"], builder: BoardBuilder): void {
  const [first] = cut;
  if (first)
    builder.problem(
      "lost",
      `${cut.size === 1 ? "A net name is" : `${cut.size} net names are`} cut off at ${NAME_COLUMNS} letters, such as "${first[0]}", and may be several nets: their pins were not joined. Import the netlist or the layout too.`,
      first[1],
    );
  const [may] = full;
  if (may)
    builder.problem(
      "note",
      `${full.size === 1 ? "A net name fills" : `${full.size} net names fill`} all ${NAME_COLUMNS} columns, such as "${may[0]}": two nets with longer names that begin like this would be one here.`,
      may[1],
    );
}

/** An opening parenthesis without its other: the name goes on behind the last column. */
const isCut = (name: string): boolean =>
  name.length >= NAME_COLUMNS && name.split("(").length > name.split(")").length;

function parameter(line: string, number: number, state: State): void {
  const [, keyword = "", rest = ""] = /^P\s+(\S+)\s*(.*?)\s*$/.exec(line) ?? [];
  if (keyword === "JOB" && rest !== "") state.title ??= rest;
  if (!/^NNAME\w/.test(keyword) || rest === "") return;
  const known = state.aliases.get(keyword);
  if (!known) state.aliases.set(keyword, { name: rest, line: number });
  else if (known.name !== rest)
    state.builder.problem(
      "note",
      `${keyword} is short for ${rest} here and for ${known.name} in line ${known.line}; ${known.name} is kept.`,
      number,
    );
}

function record(line: string, number: number, ended: boolean, state: State): void {
  const code = line.slice(0, 3);
  if (line.trim() === "" || /^[CP]/.test(line)) return;
  if (code === "999") {
    state.end = number;
    return;
  }
  // What goes on with a record tells of its other features, not of another pin.
  if (/^0\d\d$/.test(code) && state.inRecord) return;
  state.inRecord = /^3\d\d$/.test(code);
  if (/^3\d7$/.test(code)) {
    if (!ended && line.length < 32) return;
    testRecord(line, number, state);
  } else if (!/^3[78]\d$/.test(code)) {
    // Conductors, adjacency and outlines (378, 379, 389) name no pins.
    state.builder.problem(
      "lost",
      `"${shortened(line)}" is no record of an IPC-D-356 file, and was not read. Such lines begin with C, P or a three-digit number such as 317.`,
      number,
    );
  }
}

function testRecord(line: string, number: number, state: State): void {
  const { builder } = state;
  const place = placeIn(line);
  if (!place) {
    builder.problem(
      "lost",
      `"${shortened(line)}" does not tell part and pin in columns 21 to 31, and was not read. It may have been reformatted.`,
      number,
    );
    return;
  }
  const { ref, pin } = place;
  const typed = line.slice(3, 17).trim();
  const isAlias = /^NNAME\w+$/.test(typed);
  const net = state.aliases.get(typed)?.name ?? typed;
  if (isAlias && net === typed)
    builder.problem(
      "note",
      `${typed} is short for a long net name, and no "P  ${typed}" record gives it; it is kept as it is.`,
      number,
    );
  const isShort = net === typed;
  if (isShort && isCut(net)) remember(state.cut, net, number);
  else if (isShort && net.length >= NAME_COLUMNS) remember(state.full, net, number);
  const connected = net !== "" && net !== "N/C" && !(isShort && isCut(net));
  // A via belongs to its net and to no part; a hole without a pin is for a screw.
  if (/^VIA\b/.test(ref) || pin === "") {
    if (connected) builder.net(net, number);
    return;
  }
  builder.pin(ref, pin, connected ? net : undefined, number);
}

function remember(lines: Map<string, number>, name: string, line: number): void {
  if (!lines.has(name)) lines.set(name, line);
}

function placeIn(line: string): { readonly ref: string; readonly pin: string } | undefined {
  // Where the field does not begin at its column, the file was reformatted, and half a designator would be another part's.
  if (line.slice(17, 20).trim() !== "" || line[20] === " ") return undefined;
  const ref = line.slice(20, 26).trim();
  if (ref !== "" && !/\s/.test(ref)) {
    if (line[26] === "-" || /^VIA$/.test(ref))
      return { ref, pin: line[26] === "-" ? line.slice(27, 31).trim() : "" };
    if (line.slice(26, 31).trim() === "") return { ref, pin: "" };
  }
  // Some writers let a long designator push what follows to the right.
  const pushed = /^([A-Za-z0-9_]+)\s*-\s?([A-Za-z0-9_+~/]+)\s/.exec(`${line.slice(20, 40)} `);
  return pushed ? { ref: pushed[1]!, pin: pushed[2]! } : undefined;
}

const shortened = (line: string): string => (line.length > 40 ? `${line.slice(0, 40)}...` : line);
