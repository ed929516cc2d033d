// What reading the options of any command takes.

/** Thrown where an option is read and caught where the command is, so that reading one can be one expression. */
export class Wrong extends Error {}

/** Node's own words for a wrong option, without its advice on dashes. */
export function read<T>(parse: () => T): T {
  try {
    return parse();
  } catch (error) {
    throw new Wrong((error as Error).message.replace(/\. To specify a positional argument[\s\S]*$/, "."));
  }
}

/**
 * The value where it is one of the choices.
 * @throws Wrong where it is none of them
 */
export function oneOf<T extends string>(option: string, value: string, choices: readonly T[]): T {
  const choice = choices.find((c) => c === value);
  if (choice !== undefined) return choice;
  throw new Wrong(`${option} takes ${choices.join(", ")}, not "${value}".`);
}
