import { commands, Disposable } from "vscode";

/** What a command is run with only so that the editor has run it once. */
const ONCE = "mendlog.once";

/**
 * Registers commands of keys. The editor asks for whom a command is when it is run for the first time, and hears the keys
 * pressed meanwhile before it: so each is run once without doing anything.
 */
export function heardAtOnce(keys: Readonly<Record<string, (what?: unknown) => unknown>>): Disposable {
  const ids = Object.keys(keys);
  const registered = Object.entries(keys).map(([id, run]) =>
    commands.registerCommand(id, (what?: unknown) => (what === ONCE ? undefined : run(what))),
  );
  void commands.executeCommand("runCommands", {
    commands: ids.map((command) => ({ command, args: ONCE })),
  });
  return Disposable.from(...registered);
}
