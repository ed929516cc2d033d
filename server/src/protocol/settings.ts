import type { InitializeParams } from "vscode-languageserver";
import type { Severity } from "../checks/check";
import { checkOf } from "../checks/registry";
import type { CheckSettings } from "../checks/run";
import { report } from "./answer";
import type { Diagnostics } from "./diagnostics";
import type { Session } from "./session";

/** The section of the client's configuration that is ours. */
export const SECTION = "mendlog";

const LEVELS: readonly (Severity | "off")[] = ["error", "warning", "information", "hint", "off"];

export interface ReadSettings {
  readonly settings: CheckSettings;
  /** What could not be used, in words for the log. */
  readonly problems: readonly string[];
}

/** Reads what a client holds under the section; whatever it holds, something usable comes back. */
export function readSettings(section: unknown): ReadSettings {
  const severity = new Map<string, Severity | "off">();
  const problems: string[] = [];
  for (const [code, level] of entriesOf(entriesOf(section).find(([key]) => key === "severity")?.[1])) {
    if (level === "default") continue;
    const known = LEVELS.find((it) => it === level);
    if (!checkOf(code)) {
      problems.push(`The setting ${SECTION}.severity names "${code}", which is no check; it is left out.`);
    } else if (known === undefined) {
      problems.push(
        `The setting ${SECTION}.severity gives "${code}" the level ${JSON.stringify(level)}; use one of default, ${LEVELS.join(", ")}.`,
      );
    } else {
      severity.set(code, known);
    }
  }
  return { settings: { severity }, problems };
}

export const sameSettings = (a: CheckSettings, b: CheckSettings): boolean =>
  a.severity.size === b.severity.size &&
  [...a.severity].every(([code, level]) => b.severity.get(code) === level);

const entriesOf = (value: unknown): [string, unknown][] =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? Object.entries(value) : [];

/** Takes the client's settings over, now and whenever they change. */
export function handleSettings(
  { connection, service, can }: Session,
  params: InitializeParams,
  diagnostics: Diagnostics,
): { start(): Promise<void> } {
  const use = (section: unknown): void => {
    const { settings, problems } = readSettings(section);
    for (const problem of problems) connection.console.warn(problem);
    if (sameSettings(settings, service.settings)) return;
    service.settings = settings;
    diagnostics.everythingChanged();
  };
  const pull = async (): Promise<void> => {
    try {
      use(await connection.workspace.getConfiguration(SECTION));
    } catch (error) {
      report(connection, "Reading the settings", error);
    }
  };

  connection.onDidChangeConfiguration(async ({ settings }) => {
    if (can.configuration) await pull();
    else use(sectionOf(settings));
  });
  return {
    async start() {
      if (can.configuration) await pull();
      else use(sectionOf(params.initializationOptions));
    },
  };
}

/** Clients without requests for settings send them whole or only our part. */
const sectionOf = (settings: unknown): unknown => {
  const own = entriesOf(settings).find(([key]) => key === SECTION);
  return own ? own[1] : settings;
};
