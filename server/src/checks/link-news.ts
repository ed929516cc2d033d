// What a log found joined and its board file does not have on one net.
import { defined } from "../base/defined";
import { memo } from "../base/memo";
import { findRail } from "../judge/rail-name";
import { fileless, layOver } from "../judge/stated/lay-over";
import { numberedEnd, type PartAt, partLookup } from "../judge/stated/pin-names";
import { boardIndex } from "../knowledge/board-index";
import type { Library } from "../knowledge/library";
import type { Board } from "../knowledge/types";
import type { LogDocument } from "../log/document";
import type { LinkEnd, LinkStated } from "../log/stated/statement";
import { refOf } from "../review/board-draft";
import { saidParts } from "../review/said-parts";
import type { NewsOf } from "./news-fixes";

/** Tells of each connection that the log states what the board file lacks of it; undefined where it has it. */
export function linkNews(doc: LogDocument, file: Board): (link: LinkStated) => NewsOf<"net"> | undefined {
  const { library } = doc;
  const whole = withSupplies(file, library);
  const at = partLookup([...file.parts.values(), ...wordsOfParts(doc)]);
  return (link) => newsOfLink(endsOf(link, at, library), whole);
}

/** With the supply and ground pins where they follow: that they are on their rails need not be written. */
const withSupplies = memo(
  (file: Board, library: Library): Board =>
    layOver(fileless("", file), [], library, { hasFile: true, jobs: 0 }).board.value,
);

const wordsOfParts = (doc: LogDocument): { ref: string; device?: string }[] =>
  [...saidParts(doc).values()].map(({ ref, first: { device } }) => defined({ ref, device }));

const endsOf = ({ ends: [from, to] }: LinkStated, at: PartAt, library: Library): LinkStated["ends"] => [
  numberedEnd(from, at, library),
  numberedEnd(to, at, library),
];

/** Undefined where the file knows the connection, and where both ends are on nets of their own: that is a fault or a mistake. */
function newsOfLink(ends: LinkStated["ends"], file: Board): NewsOf<"net"> | undefined {
  const [a, b] = ends.map((end) => ({ pin: pinOf(end, file), net: netOf(end, file) })) as [End, End];
  if (a.pin !== undefined && b.pin !== undefined && a.net === undefined && b.net === undefined) {
    if (a.pin === b.pin) return undefined;
    return { kind: "net", name: a.pin.replace(".", "-"), pins: [a.pin, b.pin], isNew: true };
  }
  const [open, other] = a.net === undefined ? [a, b] : [b, a];
  if (open.net !== undefined || open.pin === undefined || other.net === undefined) return undefined;
  return { kind: "net", name: other.net, pins: [open.pin], isNew: false };
}

interface End {
  /** "U14.2"; absent for an end that is a net or rail by its name. */
  readonly pin: string | undefined;
  readonly net: string | undefined;
}

const pinOf = (end: LinkEnd, file: Board): string | undefined =>
  "ref" in end ? `${refOf(end.ref, file)}.${end.pin}` : undefined;

function netOf(end: LinkEnd, file: Board): string | undefined {
  if ("ref" in end) return boardIndex(file).net(end.ref, end.pin)?.name;
  if (end.net === "GND") return file.grounds[0] ?? "GND";
  const named = [...file.nets.keys()].find((name) => name.toUpperCase() === end.net.toUpperCase());
  return named ?? findRail(file, end.net)?.net ?? end.net;
}
