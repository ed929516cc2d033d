import { checkOf } from "./registry";

export type OptionRead =
  | { readonly ok: true; readonly value: number }
  /** What is wrong, and what to write instead. */
  | { readonly ok: false; readonly reason: string };

/** A value chosen for an option of a check, held to the option's bounds. */
export function readOption(code: string, name: string, value: unknown): OptionRead {
  const check = checkOf(code);
  if (!check) return { ok: false, reason: `"${code}" is no check.` };
  const options = check.options ?? [];
  const option = options.find((each) => each.name === name);
  if (!option) {
    const known = options.length === 0 ? "nothing" : options.map((each) => each.name).join(", ");
    return { ok: false, reason: `"${code}" has no "${name}" to choose, only ${known}.` };
  }
  const { least, most } = option;
  return typeof value === "number" && value >= least && value <= most
    ? { ok: true, value }
    : {
        ok: false,
        reason: `"${name}" of "${code}" is a number from ${least} to ${most}, not ${JSON.stringify(value)}.`,
      };
}
