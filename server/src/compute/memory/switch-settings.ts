// A bank of option switches read as settings, and settings written as a bank.
import type { SwitchBank, SwitchBankSetting } from "../../knowledge/types";
import { nearest } from "../../text/nearest";
import type { Result } from "../result";

/** On is true; switches that were not noted are left out. Switches count as printed on the bank. */
export type Positions = ReadonlyMap<number, boolean>;

export interface SettingCandidate {
  /** On and off as 1 and 0, in the setting's order. */
  readonly pattern: string;
  readonly meaning: string;
}

/** One setting as far as the switches that were noted decide it. */
export interface DecodedSetting {
  readonly setting: SwitchBankSetting;
  /** What was noted, in the setting's order, "?" for what was not: "1?0". */
  readonly pattern: string;
  /** Meanings that what was noted leaves, in the order of their patterns. */
  readonly candidates: readonly SettingCandidate[];
  /** Undefined: the board file gives no meaning for what was noted. */
  readonly state: "decided" | "open" | "undefined";
  /** Switches of the setting that were not noted. */
  readonly missing: readonly number[];
}

export interface DecodedBank {
  readonly settings: readonly DecodedSetting[];
  /** Switches noted that belong to no setting of the bank. */
  readonly unassigned: readonly number[];
}

/** Every setting of the bank as far as the positions decide it. */
export function decodeBank(bank: SwitchBank, positions: Positions): DecodedBank {
  const assigned = new Set(bank.settings.flatMap(({ switches }) => switches));
  return {
    settings: bank.settings.map((setting) => decodeSetting(setting, positions)),
    unassigned: [...positions.keys()].filter((at) => !assigned.has(at)).sort((a, b) => a - b),
  };
}

function decodeSetting(setting: SwitchBankSetting, positions: Positions): DecodedSetting {
  const candidates = patternsOf(setting).filter(({ pattern }) =>
    setting.switches.every((at, i) => {
      const on = positions.get(at);
      return on === undefined || on === (pattern[i] === "1");
    }),
  );
  const missing = setting.switches.filter((at) => !positions.has(at));
  const decided = new Set(candidates.map(({ meaning }) => meaning)).size === 1;
  return {
    setting,
    pattern: setting.switches.map((at) => digit(positions.get(at))).join(""),
    candidates,
    // With a switch unknown, a single listed meaning may still be one the file does not list.
    state:
      candidates.length === 0
        ? "undefined"
        : decided && isSettled(setting, candidates, missing)
          ? "decided"
          : "open",
    missing,
  };
}

const digit = (on: boolean | undefined): string => (on === undefined ? "?" : on ? "1" : "0");

/** Every way the unknown switches may stand has a meaning, and so there is none beside those listed. */
const isSettled = (
  { switches }: SwitchBankSetting,
  candidates: readonly SettingCandidate[],
  missing: readonly number[],
): boolean => candidates.length === 2 ** switches.filter((at) => missing.includes(at)).length;

/** Patterns of the right length, ascending; others are the board file's to complain about. */
const patternsOf = ({ switches, meaning }: SwitchBankSetting): readonly SettingCandidate[] =>
  [...meaning]
    .filter(([pattern]) => /^[01]+$/.test(pattern) && pattern.length === switches.length)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([pattern, text]) => ({ pattern, meaning: text }));

export interface EncodedBank {
  readonly ok: true;
  /** By switch number; switches of settings that were not asked for are left out. */
  readonly positions: Positions;
  /** Settings that may be had by another pattern as well, which means the same. */
  readonly alternatives: readonly {
    readonly setting: SwitchBankSetting;
    readonly patterns: readonly string[];
  }[];
}

const fold = (text: string): string => text.trim().toLowerCase();

/**
 * Positions that give the settings wanted: meaning by title, compared without case. Refuses a title or a meaning
 * the bank does not have, and settings that need one switch in two positions.
 */
export function encodeBank(bank: SwitchBank, wanted: ReadonlyMap<string, string>): Result<EncodedBank> {
  const asked: { readonly setting: SwitchBankSetting; readonly patterns: readonly string[] }[] = [];
  for (const [title, meaning] of wanted) {
    const setting = bank.settings.find((known) => fold(known.title) === fold(title));
    if (!setting) {
      return unknown(
        `${bank.ref} has no setting "${title}"`,
        title,
        bank.settings.map((known) => known.title),
      );
    }
    const all = patternsOf(setting);
    const patterns = all
      .filter((known) => fold(known.meaning) === fold(meaning))
      .map(({ pattern }) => pattern);
    if (patterns.length === 0) {
      return unknown(
        `"${setting.title}" has no meaning "${meaning}"`,
        meaning,
        all.map((known) => known.meaning),
      );
    }
    asked.push({ setting, patterns });
  }
  const positions = consistent(asked, new Map());
  if (!positions) {
    return {
      ok: false,
      reason: `No position of ${bank.ref} gives ${asked.map(({ setting }) => `"${setting.title}"`).join(" and ")} as wanted: they share a switch and need it on and off.`,
    };
  }
  return { ok: true, positions, alternatives: asked.filter(({ patterns }) => patterns.length > 1) };
}

function unknown(what: string, typed: string, known: readonly string[]): Result<never> {
  const near = nearest(typed, known);
  const hint = near === undefined ? `It has: ${[...new Set(known)].join(", ")}.` : `"${near}" is near.`;
  return { ok: false, reason: `${what}. ${hint}` };
}

/** The first choice of patterns that never needs a switch both on and off. */
function consistent(
  asked: readonly { readonly setting: SwitchBankSetting; readonly patterns: readonly string[] }[],
  taken: Positions,
): Positions | undefined {
  const [first, ...rest] = asked;
  if (!first) return taken;
  for (const pattern of first.patterns) {
    const mine = first.setting.switches.map((at, i) => [at, pattern[i] === "1"] as const);
    const next = new Map(taken);
    const fits = mine.every(([at, on]) => {
      const before = next.get(at);
      next.set(at, on);
      return before === undefined || before === on;
    });
    const found = fits ? consistent(rest, next) : undefined;
    if (found) return found;
  }
  return undefined;
}
