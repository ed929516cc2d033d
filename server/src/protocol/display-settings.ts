import type { HintSettings, VerdictHints } from "../features/inlay-hints";

/** What is shown beside the text. */
export interface DisplaySettings {
  readonly hints: HintSettings;
  readonly lenses: boolean;
}

/** The same for each file. */
export type ShownBy = (uri: string) => DisplaySettings;

export const SHOWN_BY_DEFAULT: DisplaySettings = { hints: { pins: true, verdicts: "all" }, lenses: true };

const VERDICTS: readonly VerdictHints[] = ["all", "doubtful", "off"];

/**
 * Reads `inlayHints.pins`, `inlayHints.verdicts` and `codeLens` of a section of settings; whatever it holds, something
 * usable comes back, with what could not be used in words for the log.
 */
export function readShown(section: unknown): {
  readonly shown: DisplaySettings;
  readonly problems: readonly string[];
} {
  const problems: string[] = [];
  const read = <T>(path: readonly string[], allowed: readonly T[], otherwise: T): T => {
    const value = path.reduce(member, section);
    if (value === undefined || value === null) return otherwise;
    const known = allowed.find((each) => each === value);
    if (known !== undefined) return known;
    const choices = allowed.map((each) => JSON.stringify(each)).join(", ");
    problems.push(
      `The setting mendlog.${path.join(".")} is ${JSON.stringify(value)}; use one of ${choices}.`,
    );
    return otherwise;
  };
  const { hints, lenses } = SHOWN_BY_DEFAULT;
  const shown: DisplaySettings = {
    hints: {
      pins: read(["inlayHints", "pins"], [true, false], hints.pins),
      verdicts: read(["inlayHints", "verdicts"], VERDICTS, hints.verdicts),
    },
    lenses: read(["codeLens"], [true, false], lenses),
  };
  return { shown, problems };
}

const member = (value: unknown, key: string): unknown =>
  typeof value === "object" && value !== null && Object.hasOwn(value, key)
    ? (value as Record<string, unknown>)[key]
    : undefined;

/**
 * What is shown file by file: the innermost folder decides, as it does for the checks.
 * @param own the section for what is in no folder
 * @param problems takes what could not be used
 */
export function shownBy(
  own: unknown,
  folders: readonly { readonly uri: string; readonly section: unknown }[],
  problems: Set<string>,
): ShownBy {
  const read = (section: unknown): DisplaySettings => {
    const { shown, problems: found } = readShown(section);
    for (const problem of found) problems.add(problem);
    return shown;
  };
  const otherwise = read(own);
  const byFolder = folders
    .map(({ uri, section }) => ({ uri: uri.endsWith("/") ? uri : `${uri}/`, shown: read(section) }))
    .sort((a, b) => b.uri.length - a.uri.length);
  return (uri) => byFolder.find((folder) => uri.startsWith(folder.uri))?.shown ?? otherwise;
}
