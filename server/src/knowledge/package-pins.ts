/** Packages named by their kind and how many pins they have; TO-92, DO-41 and HC-49 number the outline, not its pins. */
const COUNTED =
  /^\s*(?:C|P|CER)?(?:DIP|DIL|SDIP|SIP|SIL|ZIP|SOIC|SOP|SO|SSOP|TSSOP|PLCC|QFP|TQFP)[- ]?(\d{1,3})\s*$/i;
const WORDED = /^\s*(\d{1,3})[- ]?(?:pins?|legs?|way)\b/i;

/** Pins of a package by its name: 16 for "DIP-16", "DIL 16" and "16-pin DIP". Undefined where the name does not say. */
export function packagePins(name: string): number | undefined {
  const digits = COUNTED.exec(name)?.[1] ?? WORDED.exec(name)?.[1];
  const pins = Number(digits ?? 0);
  return pins > 0 ? pins : undefined;
}
