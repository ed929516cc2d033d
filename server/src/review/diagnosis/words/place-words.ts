// A place as it is typed at the bench, by what the board has there: "U13.9", "J3 p5", "pin 8 of U13", "C1 +", "Q5 collector",
// "TP4", "SW_ROW_4", "net D5", "row line 4 (J3 pin 4)".
import { memo } from "../../../base/memo";
import { partTestPoint, pinTestPoint, resolvePin } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Library } from "../../../knowledge/library";
import type { Board, Net, PinRef } from "../../../knowledge/types";

const REF = "[A-Za-z]{1,4}\\s?\\d{1,4}[A-Za-z]?";
const PIN_WORD = "(?:(?:pins?|legs?|terminal|contact|no\\.?)\\s*\\.?(?:\\s+|(?=\\d))|p\\.?\\s?(?=\\d)|#\\s?)";
/** "U13.9", "U13-9", "U13/9", "U13 pin 9", "U13 p9", "U13 9", "Q5 C", "C1 +", "U13 (9)", "VR2 out". */
const FRONT = new RegExp(
  `^(${REF})(?:'s)?\\s*[-.:/,@(]?\\s*(?:${PIN_WORD})?([A-Za-z][A-Za-z0-9_/]{0,9}|[A-Za-z]?\\d{1,3}|[+\\u2212~-]|[/~]\\w{1,8})\\)?$`,
  "i",
);
/** "pin 9 of U13", "pin 9, U13", "9 of U13", "collector of Q5", "base Q5". */
const BEHIND = new RegExp(
  `^(?:${PIN_WORD})?([A-Za-z0-9+\\u2212/-]{1,10})\\s*(?:of|on|at|in|,)?\\s+(?:the\\s+)?(${REF})$`,
  "i",
);
const NAMED = /^(?:(?:the|net|line|signal|track|node)\s+)+|\s+(?:net|line|signal|track|node)$/gi;

/** Words for legs, by the names that sheets have for them. */
const LEGS: ReadonlyMap<string, readonly string[]> = new Map([
  ["COLLECTOR", ["C"]],
  ["COLL", ["C"]],
  ["BASE", ["B"]],
  ["EMITTER", ["E"]],
  ["EMIT", ["E"]],
  ["CATHODE", ["K", "C"]],
  ["BAND", ["K", "C"]],
  ["STRIPE", ["K", "C"]],
  ["K", ["K", "C", "CATHODE"]],
  ["ANODE", ["A"]],
  ["A", ["A", "ANODE"]],
  ["PLUS", ["+"]],
  ["POS", ["+"]],
  ["MINUS", ["-"]],
  ["NEG", ["-"]],
]);
/** Of two leads the first: a diode's cathode, a capacitor's plus, by the boards' own habit. */
const FIRST = new Set(["+", "PLUS", "POS", "K", "CATHODE", "BAND", "STRIPE"]);
const SECOND = new Set(["-", "\u2212", "MINUS", "NEG", "A", "ANODE"]);

const LONGEST = 48;

/**
 * The pin that the words mean; of a net one of its pins, a chip's where it has one. Undefined where the board has no such
 * place. "D5" may be a diode and a data line: what stands under a word for lines is the line.
 */
export function boardPinIn(
  typed: string,
  board: Board,
  library: Library,
  first: "part" | "net" = "part",
): PinRef | undefined {
  const text = typed.replace(/^[*_`]{1,3}|[*`]{1,3}$/g, "").trim();
  if (text.length > LONGEST || text.length < 2) return undefined;
  if (first === "net") {
    const net = netIn(text, board);
    if (net) return net;
  } else if (boardIndex(board).part(text.replace(/\s/g, ""))) return onlyPin(text.replace(/\s/g, ""), board);
  return lookUp(text, board, library);
}

function lookUp(text: string, board: Board, library: Library): PinRef | undefined {
  const found = pinIn(text, board, library) ?? netIn(text, board);
  if (found) return found;
  // A remark behind it, or the place itself in brackets behind a name.
  const [, head = "", inside = ""] = /^(.*?)\s*[([]([^()[\]]*)[)\]]\s*$/.exec(text) ?? [];
  if (head !== "")
    return (
      pinIn(inside, board, library) ??
      pinIn(head, board, library) ??
      netIn(head, board) ??
      netIn(inside, board)
    );
  const [, front = ""] = /^(.*?)\s*(?:,|=|\bat\b|\bon\b|\s-\s).*$/i.exec(text) ?? [];
  return front === "" || front === text ? undefined : (pinIn(front, board, library) ?? netIn(front, board));
}

function pinIn(text: string, board: Board, library: Library): PinRef | undefined {
  const front = FRONT.exec(text);
  const one = front && pinOf(front[1], front[2], board, library);
  if (one) return one;
  const behind = BEHIND.exec(text);
  return behind ? pinOf(behind[2], behind[1], board, library) : undefined;
}

/** Of a part with one pin, a test point, that pin. */
function onlyPin(ref: string, board: Board): PinRef | undefined {
  const pins = pinsOf(board).get(boardIndex(board).part(ref)?.ref ?? ref) ?? [];
  return pins.length === 1 ? pins[0] : undefined;
}

const pinsOf = memo((board: Board): ReadonlyMap<string, readonly PinRef[]> => {
  const all = new Map<string, PinRef[]>();
  for (const { pins } of board.nets.values())
    for (const pin of pins) all.set(pin.ref, [...(all.get(pin.ref) ?? []), pin]);
  return all;
});

function pinOf(
  refTyped: string | undefined,
  pinTyped: string | undefined,
  board: Board,
  library: Library,
): PinRef | undefined {
  if (refTyped === undefined || pinTyped === undefined) return undefined;
  const at = partTestPoint(refTyped.replace(/\s/g, ""), board, library);
  if (!at.part) return undefined;
  const { ref } = at.part;
  const word = pinTyped.toUpperCase();
  const own = pinsOf(board).get(ref) ?? [];
  const there = (pin: string): PinRef | undefined =>
    own.some((one) => one.pin === pin) || at.device?.pins.has(pin) ? { ref, pin } : undefined;
  const number = /^0*(\d{1,3})$/.exec(word)?.[1];
  if (number !== undefined) return there(number);
  const named = at.device && [word, ...(LEGS.get(word) ?? [])].map((name) => resolvePin(at.device!, name));
  const pin = named?.find((one) => one !== undefined);
  if (pin) return { ref, pin: pin.number };
  if (own.length === 2) return FIRST.has(word) ? there("1") : SECOND.has(word) ? there("2") : undefined;
  const { pin: byName, net } = pinTestPoint(at, pinTyped, board);
  return byName || net ? { ref, pin: byName?.number ?? pinTyped } : undefined;
}

const netsByName = memo(
  (board: Board): ReadonlyMap<string, Net> =>
    new Map([...board.nets.values()].map((net) => [plain(net.name), net])),
);

const plain = (name: string): string => name.toUpperCase().replace(/[\s_-]+/g, "_");

function netIn(text: string, board: Board): PinRef | undefined {
  const nets = netsByName(board);
  const net = nets.get(plain(text)) ?? nets.get(plain(text.replace(NAMED, "")));
  // What a rail reads is told by the rail.
  if (!net || boardIndex(board).isGround(net) || boardIndex(board).railOf(net) !== undefined)
    return undefined;
  return net.pins.find(({ ref }) => /^(?:U|IC)\d/i.test(ref)) ?? net.pins.find(isNoHeader) ?? net.pins[0];
}

const isNoHeader = ({ ref }: PinRef): boolean => !/^(?:J|P|TP|CN)\d/i.test(ref);
