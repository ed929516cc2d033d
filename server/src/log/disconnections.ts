// What a note or a heading says was off its net while a reading was taken: a chip out of its socket, a lifted pin, a
// cut track. Only what people write at the bench is looked for, in any order of the words: "U12 out", "with U12 and U13
// pulled", "U12 pin 3 lifted", "pin lifted", "lifted U12.3", "track cut at U12.3". What is to be done ("pull U12
// next"), what was not done and what lies outside limits is none of it.

export interface Disconnection {
  /** The designator as typed; absent where the words mean the row's own part. */
  readonly ref?: string;
  /** Absent where the whole part is off, or the row's own pin is meant. */
  readonly pin?: string;
  /** `out`: the part; `lifted`: a pin; `cut`: the track, at the pin where one is named. */
  readonly how: "out" | "lifted" | "cut";
  /** The words say that the reading was taken at the pad or the socket, not on the lifted leg. */
  readonly pad?: true;
}

const REF = "(?!(?:pins?|legs?)\\d)[A-Za-z]{1,4}\\d{1,4}[A-Za-z]?";
const AND = "\\s*(?:,|&|\\+|/|\\band\\b)\\s*";
const REFS = `${REF}(?:${AND}${REF})*`;
const NUMBERS = `\\d{1,3}(?:${AND}\\d{1,3})*`;
/** "U12 pin 3", "U12.3", "U12-3", "U12 pins 3, 4". */
const PINS = `(${REF})(?:\\s*[.-]\\s*|\\s+(?:pins?|legs?)\\s*)(${NUMBERS})`;
const IS = "(?:(?:is|are|was|were|both|still|now|all)\\s+)*";
/** "out of limits" and "off by 20 mV" are no places. */
const GONE =
  "(?:out(?!\\s+of\\s+(?!(?:(?:its|their|the)\\s+)?(?:sockets?|circuit)\\b))|off(?!\\s+by\\b)|pulled|unplugged|removed|desoldered|unsoldered|disconnected|unsocketed|taken\\s+(?:out|off)|lifted)";
const UP = "(?:lifted|bent\\s+(?:out|up)|in\\s+the\\s+air|cut\\s+free|disconnected)";

const rule = (text: string): RegExp => new RegExp(`(?<![\\w.-])(?:${text})(?![\\w-])`, "gi");

/** In the order they are tried; what one has read the next does not see. */
const RULES: readonly (readonly [RegExp, (match: RegExpMatchArray) => Disconnection[]])[] = [
  [
    rule(`(?:track|trace)?\\s*cut\\s+between\\s+${PINS}\\s+and\\s+${PINS}`),
    (m) => [...pinsOf("cut", m[1], m[2]), ...pinsOf("cut", m[3], m[4])],
  ],
  [
    rule(
      `(?:(?:track|trace)\\s+)?${IS}cut\\s+(?:the\\s+(?:track|trace)\\s+)?(?:at|near|to|by|before|behind|after)\\s+${PINS}`,
    ),
    (m) => pinsOf("cut", m[1], m[2]),
  ],
  [
    rule(`${PINS}\\s+${IS}(?:${UP}|cut|out(?!\\s+of\\b)|pulled)`),
    (m) => pinsOf(/cut$/i.test(m[0]) ? "cut" : "lifted", m[1], m[2]),
  ],
  [rule(`(?:with\\s+)?lifted\\s+(?:the\\s+)?${PINS}`), (m) => pinsOf("lifted", m[1], m[2])],
  [
    rule(`(?:its\\s+|the\\s+|own\\s+)?(?:pins?|legs?)\\s*(${NUMBERS})?\\s*${IS}${UP}`),
    (m) => pinsOf("lifted", undefined, m[1]),
  ],
  [
    rule(`lifted\\s+(?:its\\s+|the\\s+)?(?:pins?|legs?)(?:\\s*(${NUMBERS}))?`),
    (m) => pinsOf("lifted", undefined, m[1]),
  ],
  [rule(`(?:without|w/o)\\s+(${REFS})`), (m) => partsOf(m[1])],
  [
    rule(`(?:pulled|unplugged|removed|desoldered|unsoldered|lifted|took\\s+out)\\s+(${REFS})`),
    (m) => partsOf(m[1]),
  ],
  // "Lifted plus of C9", "one leg of R3 lifted".
  [rule(`lifted\\s+(?:(?:the|one|a|its)\\s+)?(?:\\w+\\s+){0,2}of\\s+(${REF})`), (m) => partsOf(m[1])],
  [rule(`(${REFS})\\s+${IS}${GONE}`), (m) => partsOf(m[1])],
  [
    rule("(?:the\\s+)?(?:track|trace)\\s+(?:is\\s+|was\\s+)?cut|cut\\s+(?:the\\s+)?(?:track|trace)"),
    () => [{ how: "cut" }],
  ],
  // Nothing is in the socket that was read.
  [
    rule(
      "(?:in|at|on)?\\s*(?:the\\s+|an\\s+)?empty\\s+socket|socket\\s+(?:is\\s+|was\\s+)?(?:left\\s+)?empty",
    ),
    () => [{ how: "out" }],
  ],
  // A whole note of one word is about the row's own pin.
  [/^\s*(?:lifted|pulled|out of (?:its|the) socket)\s*[.,;]?\s*$/gi, (m) => [own(m[0])]],
];

/** What comes before makes it something else: "before U12 was pulled", "if U12 pulled". */
const UNDONE = /\b(?:not|never|before|until|if|once|when|unless|prior to|no)\s+$/i;

/** Every part and pin that the words say is off its net, each once; none for words that say nothing of it. */
export function disconnectionsIn(text: string): readonly Disconnection[] {
  if (
    text.length > 400 ||
    !/\b(?:out|off|pulled|lifted|cut|without|w\/o|removed|unplugged|\w*soldered|unsocketed|disconnected|bent|air|empty)\b/i.test(
      text,
    )
  )
    return NOTHING;
  return readIn(withoutRanges(text));
}

/** "U2 to U11" is each of them. */
const RANGE = /\b([A-Z]{1,3})(\d{1,3})\s*(?:to|-|\u2013|through|thru|\.{2,3})\s*\1(\d{1,3})\b/g;
const MOST_IN_RANGE = 40;

const withoutRanges = (text: string): string =>
  text.replace(RANGE, (all, letters: string, from: string, to: string) => {
    const [first, last] = [Number(from), Number(to)];
    return last <= first || last - first > MOST_IN_RANGE
      ? all
      : Array.from({ length: last - first + 1 }, (_, i) => `${letters}${first + i}`).join(", ");
  });

function readIn(text: string): readonly Disconnection[] {
  const pad = /\b(?:at|on)\s+(?:the\s+|its\s+)?(?:pad|land|socket|hole)\b/i.test(text);
  const found = new Map<string, Disconnection>();
  let rest = text;
  for (const [pattern, read] of RULES) {
    rest = rest.replace(pattern, (...args) => {
      const groups = args.slice(
        0,
        args.findIndex((arg) => typeof arg === "number"),
      ) as string[];
      const at = args.find((arg) => typeof arg === "number") as number;
      const whole = groups[0] ?? "";
      if (UNDONE.test(rest.slice(0, at))) return " ".repeat(whole.length);
      for (const one of read(groups as unknown as RegExpMatchArray)) {
        const apart = pad && one.how !== "out" ? { ...one, pad: true as const } : one;
        found.set(`${one.ref?.toUpperCase() ?? ""}.${one.pin ?? ""} ${one.how}`, apart);
      }
      // Kept as long as it was, and no word for what follows.
      return "\u0001".repeat(whole.length);
    });
  }
  return found.size === 0 ? NOTHING : [...found.values()];
}

const NOTHING: readonly Disconnection[] = [];

const own = (words: string): Disconnection => ({ how: /^\s*lifted/i.test(words) ? "lifted" : "out" });

const pinsOf = (
  how: "lifted" | "cut",
  ref: string | undefined,
  numbers: string | undefined,
): Disconnection[] => {
  const at = ref === undefined ? {} : { ref };
  const pins = numbers?.match(/\d+/g) ?? [];
  return pins.length === 0 ? [{ ...at, how }] : pins.map((pin) => ({ ...at, pin: String(Number(pin)), how }));
};

const partsOf = (refs: string | undefined): Disconnection[] =>
  (refs?.match(new RegExp(REF, "g")) ?? [])
    .filter((ref) => !/^(?:pins?|legs?)\d/i.test(ref))
    .map((ref) => ({ ref, how: "out" }));
