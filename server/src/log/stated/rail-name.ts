// What the name of a rail says of its voltage: "+5V", "5 V", "+5 (logic)", "-12V", "+12 V unreg", "+34V coils", "VCC".

export interface NamedRail {
  /** The name that every way of writing it comes to: "+5V", "-12V", "+12V unreg". */
  readonly name: string;
  /** Volts. */
  readonly nominal: number;
  readonly unregulated: boolean;
  readonly byHabit?: true;
}

const UNREGULATED = /\b(?:un-?reg(?:ulated)?|raw|bulk|coils?|solenoids?|lamps?|motors?|relays?|rectified)\b/i;
/** Words that say what a rail is for or where it was read, and make it no other rail. */
const NO_OTHER =
  /\b(?:dc|reg(?:ulated)?|logic|digital|supply|rail|main|line|vdc|volts?|at|on|near|load(?:ed)?|unload(?:ed)?|board|psu)\b/gi;
const VOLTAGE =
  /^(?:v(?:cc|dd|ss|ee|bb)?\s*[=:(]?\s*)?([+\-\u2212\u2013\u00b1]?)\s*(\d{1,3}(?:[.,]\d{1,2})?)\s*(?:V(?:olts?)?(?:\s*DC)?(?![A-Za-z]))?/i;
/** Supplies of TTL by a habit of the trade; other letters mean different voltages on different boards. */
const VCC = /^V\s*_?CC$/i;
/** More is no rail of such a board. */
const MOST_VOLTS = 400;

/** Undefined where the name does not say a voltage, or says an alternating one. */
export function railNamed(typed: string): NamedRail | undefined {
  const text = typed
    .replace(/[*_`]/g, " ")
    .replace(/\s+/g, " ")
    .trim()
    .replace(/^(?:the|our)\s+/i, "")
    .replace(/^TP\s?\d{1,2}\s*[:=,(-]?\s*(?=\S)/i, "");
  if (VCC.test(text)) return { name: "VCC", nominal: 5, unregulated: false, byHabit: true };
  if (/\d\s*V?\s*AC\b/i.test(text) || text.length > 60) return undefined;
  const match = VOLTAGE.exec(text);
  const [whole = "", sign = "", digits = ""] = match ?? [];
  const rest = text.slice(whole.length);
  // "5101 supply" and "74LS04" are parts, "3 pin" is none either.
  if (!match || /^\w/.test(rest) || (sign === "" && !/V/i.test(whole) && rest.trim() !== ""))
    return undefined;
  const size = Number(digits.replace(",", "."));
  if (!(size > 0) || size > MOST_VOLTS || sign === "\u00b1") return undefined;
  const nominal = sign === "" || sign === "+" ? size : -size;
  const unregulated = UNREGULATED.test(rest);
  const name = `${nominal < 0 ? "-" : "+"}${size}V`;
  const word = UNREGULATED.exec(rest)?.[0].toLowerCase();
  const other =
    word ??
    rest
      .replace(NO_OTHER, " ")
      .replace(/[^\p{L}\p{N}]+/gu, " ")
      .trim()
      .split(" ")[0]
      ?.toLowerCase();
  // Where it was read is no name: "+5V (TP1)", "+5V, far end", "+5V at U5 pin 14".
  const isPlace =
    word === undefined && (/^\s*(?:[([,;@]|at\b|on\b|near\b)/i.test(rest) || !other || /\d/.test(other));
  return { name: isPlace || !other ? name : `${name} ${other}`, nominal, unregulated };
}
