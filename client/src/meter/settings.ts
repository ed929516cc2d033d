import { type Uri, type WorkspaceConfiguration, workspace } from "vscode";

/** The settings of the meter, with something usable in each whatever is typed there. */
export interface MeterSettings {
  /** Empty where no meter is to be used. */
  readonly address: string;
  /** Where another program appends readings; a path that is empty stands for none. */
  readonly file: StatedPath;
  readonly ask: "measure" | "read";
  /** Milliseconds. */
  readonly timeout: number;
  readonly digits: number;
  readonly beep: "never" | "outsideLimits" | "always";
}

const within = (value: unknown, least: number, most: number, otherwise: number): number =>
  typeof value === "number" && value >= least && value <= most ? value : otherwise;

/** A path as it was typed, and whether the person's own settings say it too. */
export interface StatedPath {
  readonly path: string;
  readonly own: boolean;
}

const typed = (value: unknown): string => (typeof value === "string" ? value.trim() : "");

/** Where the folder is not trusted the editor leaves the workspace's value out of what it gives. */
function statedFile(read: WorkspaceConfiguration): StatedPath {
  const path = typed(read.get<unknown>("file"));
  return { path, own: typed(read.inspect<unknown>("file")?.globalValue) === path };
}

export function meterSettings(resource: Uri): MeterSettings {
  const read = workspace.getConfiguration("mendlog.meter", resource);
  const address = read.get<unknown>("address");
  const beep = read.get<unknown>("beep");
  return {
    address: typed(address),
    file: statedFile(read),
    ask: read.get<unknown>("ask") === "read" ? "read" : "measure",
    timeout: 1000 * within(read.get("timeout"), 0.1, 120, 5),
    digits: Math.round(within(read.get("digits"), 1, 10, 4)),
    beep: beep === "never" || beep === "always" ? beep : "outsideLimits",
  };
}
