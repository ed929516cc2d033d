import { parseQuantity } from "../quantity/quantity";
import { bothWays } from "./tolerance";

const WORDS: Readonly<Record<string, { name: string; example: string }>> = {
  voltage: { name: "a voltage", example: "5 V" },
  current: { name: "a current", example: "1.8 A" },
  resistance: { name: "a resistance", example: "4k7 ohm" },
  capacitance: { name: "a capacitance", example: "100 nF" },
  inductance: { name: "an inductance", example: "10 mH" },
  frequency: { name: "a frequency", example: "1 MHz" },
  time: { name: "a time", example: "50 ms" },
  power: { name: "a power", example: "5 W" },
  temperature: { name: "a temperature", example: "25 °C" },
  ratio: { name: "a percentage", example: "5 %" },
};

/** In a schema's list of quantities: two figures with their signs are taken too. */
export const BOTH_WAYS = "both-ways";

/** The text's value in base units with its dimension; undefined where it is not a quantity. */
export function quantityOf(text: string): { value: number; dimension: string } | undefined {
  const read = parseQuantity(text);
  return read.ok ? { value: read.quantity.value, dimension: read.quantity.dimension } : undefined;
}

/**
 * Why `text` is not a quantity of one of the `wanted` dimensions, as a sentence; undefined where it is one.
 * "any" takes every dimension that has a unit.
 */
export function quantityFault(text: string, wanted: string | readonly string[]): string | undefined {
  const all = [wanted].flat();
  if (all.includes(BOTH_WAYS) && bothWays(text)) return undefined;
  const kinds = all.filter((kind) => kind !== BOTH_WAYS);
  const any = kinds.includes("any");
  const names = kinds.map((kind) => WORDS[kind]?.name ?? kind).join(" or ");
  const example = kinds.map((kind) => `\`${WORDS[kind]?.example ?? "5 V"}\``).join(" or ");
  const read = parseQuantity(text);
  if (!read.ok) {
    const told = read.suggestions[0] === undefined ? "" : ` Did you mean \`${read.suggestions[0]}\`?`;
    return `${capital(read.message)}. Write ${any ? "a quantity" : names} with its unit, like ${example}.${told}`;
  }
  const { dimension } = read.quantity;
  if (any ? dimension !== "count" : kinds.includes(dimension)) return undefined;
  if (dimension === "count") return `\`${text}\` has no unit. Write it with one, like ${example}.`;
  return `\`${text}\` is ${WORDS[dimension]?.name ?? dimension}, but ${names} is wanted here, like ${example}.`;
}

const capital = (sentence: string): string => sentence.charAt(0).toUpperCase() + sentence.slice(1);
