import type { Value } from "./provider";

let known: readonly Value[] | undefined;

/** Codes of ISO 4217 with their English names, both as the JavaScript engine has them. */
export function currencies(): readonly Value[] {
  known ??= load();
  return known;
}

function load(): readonly Value[] {
  const names = new Intl.DisplayNames("en", { type: "currency" });
  return Intl.supportedValuesOf("currency").map((label) => {
    const name = names.of(label) ?? label;
    return { label, description: name, words: name };
  });
}
