// Words for a number that is not certain: what it may be and why nobody can say from the number alone.
import type { Doubt, MayBe } from "./number-lookup";

/** "TIL311 is a hexadecimal display (Texas Instruments), and 311 by itself is a comparator". No full stop. */
export function doubtText({ letters, uses, mayBe }: Doubt): string {
  const told = mayBe.filter(({ maker }) => maker !== undefined);
  const alone = mayBe.find(({ maker }) => maker === undefined);
  if (told.length > 0) {
    const first = told.map((one, at) => `${at === 0 ? `${one.number} is ` : ""}${by(one)}`).join(", or ");
    return alone ? `${first}; ${aloneText(alone)}` : first;
  }
  const [use] = uses;
  const who = use
    ? `${letters} comes before ${use.use} (${use.maker})`
    : `no maker is known here to write ${letters} before it`;
  return alone ? `${who}; ${aloneText(alone)}` : who;
}

const by = ({ is, maker }: MayBe): string => `${lower(is)} (${maker})`;

const aloneText = ({ is, number }: MayBe): string => `${number} without letters is ${lower(is)}`;

/** A title in the middle of a sentence; short forms and numbers keep their capitals: "EPROM", "LM311". */
const lower = (title: string): string =>
  /^[A-Z][a-z]/.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title;

/** Numbers that say for certain what the parts are that the library has pins of: the device's own. */
export const certainNumbers = ({ mayBe }: Doubt): readonly string[] => [
  ...new Set(mayBe.flatMap(({ device }) => device?.id ?? [])),
];

/** What to do: "If it is that, write 4016; else begin a device file." */
export function numberDoubtAdvice(doubt: Doubt): string {
  const numbers = certainNumbers(doubt);
  return numbers.length > 0
    ? `Read the part again; if it is ${numbers.length > 1 ? "one of them" : "that one"}, write ${numbers.join(" or ")}.`
    : "The library has no pins of it: describe it in a device file.";
}
