// The front matter of a new log. Whatever was typed reads back as it was typed.
import type { NewLogFacts } from "./facts";

/** Lines between the fences, the fences included. */
export function frontLines(facts: NewLogFacts): string[] {
  const field = (key: string, value: string | undefined) =>
    value === undefined ? [] : [`${key}: ${scalar(value)}`];
  const symptoms = facts.symptoms ?? [];
  return [
    "---",
    "mendlog: 1",
    ...field("job", facts.job),
    ...field("board", facts.board),
    ...field("revision", facts.revision),
    ...field("serial", facts.serial),
    ...field("owner", facts.owner),
    ...field("received", facts.received),
    "stage: received",
    ...(symptoms.length > 0 ? [`symptoms: [${symptoms.map(scalar).join(", ")}]`] : []),
    ...field("meter", facts.meter),
    ...field("comeback-of", facts.comebackOf),
    "---",
  ];
}

/**
 * A text as a YAML scalar, good in a line of its own and within brackets. Plain only where no reader of YAML, of 1.1
 * or 1.2, takes it for anything but text or a day; all else stands in double quotes with the escapes of JSON, which
 * YAML 1.2 shares (chapter 7.3.1), and with those that JSON leaves out.
 */
export function scalar(text: string): string {
  const words = /^[\p{L}\p{N}][\p{L}\p{N}\p{M}._/()+'-]*(?: [\p{L}\p{N}\p{M}._/()+'-]+)*$/u.test(text);
  const other = /^(?:null|true|false|yes|no|y|n|on|off|nan|inf)$/i.test(text);
  const number = /^[\d._+-]*(?:e[+-]?\d+)?$/i.test(text) || /^0[xob][\da-f_]+$/i.test(text);
  const joined = /^\d+(?:-\d+)+$/.test(text);
  return words && !other && (!number || joined) ? text : JSON.stringify(text).replace(UNSEEN, escaped);
}

// Beyond the printable characters of YAML 1.2 (chapter 5.1), and what some readers take for a line end.
const UNSEEN = /[\u007f-\u009f\u2028\u2029\ufeff\ufffe\uffff]/g;

const escaped = (char: string): string => `\\u${char.charCodeAt(0).toString(16).padStart(4, "0")}`;
