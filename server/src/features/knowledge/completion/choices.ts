import { defined } from "../../../base/defined";
import type { PinDirection } from "../../../knowledge/types";
import { directionWords } from "../../shared/describe";
import type { Value, ValueQuery } from "./provider";

/** Words of a fixed list, each with what it means where the word alone does not say. */
export function choices(words: readonly string[], { path }: ValueQuery): readonly Value[] {
  const meaning = MEANINGS[String(path.at(-1))];
  return words.map((label) => {
    const description = meaning?.(label);
    return defined({
      label,
      kind: "keyword",
      description: description === undefined || description === label ? undefined : description,
    });
  });
}

const FUNCTIONS: Readonly<Record<string, string>> = {
  "dc-volts": "direct voltage",
  "ac-volts": "alternating voltage",
  diode: "forward drop of a junction",
  ohms: "resistance",
  capacitance: "capacitance",
  esr: "a capacitor's series resistance",
  frequency: "frequency",
  "dc-amps": "direct current",
};

const POWERED: Readonly<Record<string, string>> = {
  unpowered: "only with the board off",
  powered: "only with the board on",
  either: "with the board on or off",
};

const MEANINGS: Readonly<Record<string, (word: string) => string | undefined>> = {
  function: (word) => FUNCTIONS[word],
  powered: (word) => POWERED[word],
  direction: (word) => directionWords({ direction: word as PinDirection }),
};
