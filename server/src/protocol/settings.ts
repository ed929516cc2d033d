import type { InitializeParams } from "vscode-languageserver";
import { type CheckCode, DEFAULT_SETTINGS, type OwnSettings, type Severity } from "../checks/check";
import { readOption } from "../checks/read-option";
import { checkOf } from "../checks/registry";
import { type Settings, settingsOf } from "../workspace/settings";
import { report } from "./answer";
import { type DisplaySettings, shownBy } from "./display-settings";
import { readTyping } from "./editing-settings";
import type { Session } from "./session";

/** The section of the client's configuration that is ours. */
export const SECTION = "mendlog";

const LEVELS: readonly (Severity | "off" | "default")[] = [
  "default",
  "error",
  "warning",
  "information",
  "hint",
  "off",
];

export interface ReadSettings {
  readonly settings: OwnSettings;
  /** What could not be used, in words for the log. */
  readonly problems: readonly string[];
}

/** Checks that the words about a wrong setting name. */
const EXAMPLE = { option: "net-disagreement", severity: "text-in-table" } as const satisfies Record<
  string,
  CheckCode
>;

/** Reads what a client holds under the section; whatever it holds, something usable comes back. */
export function readSettings(section: unknown): ReadSettings {
  const severity = new Map<string, Severity | "off" | "default">();
  const options = new Map<string, Map<string, number>>();
  const problems: string[] = [];
  const byCode = (value: unknown, name: string, example: string): [string, unknown][] => {
    if (value !== undefined && value !== null && !isMap(value)) {
      problems.push(
        `The setting ${SECTION}.${name} is ${JSON.stringify(value)}; it gives check by check what is wanted: ${example}.`,
      );
    }
    return entriesOf(value);
  };
  for (const [code, level] of byCode(
    fieldOf(section, "severity"),
    "severity",
    `{ "${EXAMPLE.severity}": "off" }`,
  )) {
    const known = LEVELS.find((it) => it === level);
    if (!checkOf(code)) {
      problems.push(`The setting ${SECTION}.severity names "${code}", which is no check; it is left out.`);
    } else if (known === undefined) {
      problems.push(
        `The setting ${SECTION}.severity gives "${code}" the level ${JSON.stringify(level)}; use one of ${LEVELS.join(", ")}.`,
      );
    } else {
      severity.set(code, known);
    }
  }
  const example = `{ "${EXAMPLE.option}": { "margin": 2 } }`;
  for (const [code, chosen] of byCode(fieldOf(section, "options"), "options", example)) {
    for (const [name, value] of byCode(chosen, `options.${code}`, example)) {
      const read = readOption(code, name, value);
      if (!read.ok) problems.push(`The setting ${SECTION}.options: ${read.reason}`);
      else options.set(code, (options.get(code) ?? new Map<string, number>()).set(name, read.value));
    }
  }
  return { settings: { severity, options }, problems };
}

export const sameSettings = (a: OwnSettings, b: OwnSettings): boolean =>
  sameEntries(a.severity, b.severity) &&
  sameEntries(a.options ?? NO_OPTIONS, b.options ?? NO_OPTIONS, sameEntries);

const NO_OPTIONS: ReadonlyMap<string, ReadonlyMap<string, number>> = new Map();

const sameEntries = <V>(
  a: ReadonlyMap<string, V>,
  b: ReadonlyMap<string, V>,
  same: (one: V, other: V) => boolean = Object.is,
): boolean =>
  a.size === b.size &&
  [...a].every(([key, value]) => {
    const other = b.get(key);
    return other !== undefined && same(value, other);
  });

const fieldOf = (value: unknown, name: string): unknown =>
  entriesOf(value).find(([key]) => key === name)?.[1];

const isMap = (value: unknown): value is object =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const entriesOf = (value: unknown): [string, unknown][] => (isMap(value) ? Object.entries(value) : []);

/** Takes the client's settings over, now and whenever they or the folders change. */
export function handleSettings(session: Session, params: InitializeParams): { start(): Promise<void> } {
  const { connection, service, documents, can, preferences, refreshes, events } = session;
  /** Kept while nothing in them changes: what was computed with them stays valid. */
  let known: Settings = { otherwise: DEFAULT_SETTINGS, folders: [] };

  const read = (section: unknown, last: OwnSettings | undefined, told: Set<string>): OwnSettings => {
    const { settings, problems } = readSettings(section);
    // What is wrong in the settings of a person is wrong in every folder, and said once.
    for (const problem of problems) told.add(problem);
    return last && sameSettings(settings, last) ? last : settings;
  };
  const use = (own: unknown, folders: readonly { readonly uri: string; readonly section: unknown }[]) => {
    const problems = new Set<string>();
    const otherwise = read(own, known.otherwise, problems);
    const next: Settings = {
      otherwise,
      // Most folders go by the same as everything else; one object for all keeps what was computed with it valid.
      folders: folders.map(({ uri, section }) => ({
        uri,
        settings: read(section, known.folders.find((it) => it.uri === uri)?.settings ?? otherwise, problems),
      })),
    };
    const shown = shownBy(own, folders, problems);
    const before = documents.all().map(({ uri }) => preferences.shown(uri));
    preferences.useSettings(shown, readTyping(own, problems));
    const now = documents.all().map(({ uri }) => preferences.shown(uri));
    const differ = (of: (each: DisplaySettings) => unknown) =>
      now.some((each, i) => of(each) !== of(before[i]!));
    if (differ(({ hints }) => hints.pins) || differ(({ hints }) => hints.verdicts)) refreshes.hints();
    if (differ(({ lenses }) => lenses)) refreshes.lenses();
    for (const problem of problems) connection.console.warn(problem);
    const same =
      otherwise === known.otherwise &&
      next.folders.every(({ uri, settings }) => settings === settingsOf(known, uri));
    known = next;
    service.settings = next;
    if (!same) events.everythingChanged.fire();
  };
  const pull = async (): Promise<void> => {
    try {
      const folders = session.folders.entries();
      const sections = await connection.workspace.getConfiguration([
        { section: SECTION },
        ...folders.map(([, scopeUri]) => ({ scopeUri, section: SECTION })),
      ]);
      use(
        sections[0],
        folders.map(([uri], n) => ({ uri, section: sections[n + 1] })),
      );
    } catch (error) {
      report(connection, "Reading the settings", error);
    }
  };

  connection.onDidChangeConfiguration(async ({ settings }) => {
    if (can.configuration) await pull();
    else use(sectionOf(settings), []);
  });
  events.foldersChanged.on(() => {
    if (can.configuration) void pull();
  });
  return {
    async start() {
      if (can.configuration) await pull();
      else use(sectionOf(params.initializationOptions), []);
    },
  };
}

/** Clients without requests for settings send them whole or only our part. */
const sectionOf = (settings: unknown): unknown => {
  const own = entriesOf(settings).find(([key]) => key === SECTION);
  return own ? own[1] : settings;
};
