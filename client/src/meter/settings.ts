import { type Uri, workspace } from "vscode";

/** The settings of the meter, with something usable in each whatever is typed there. */
export interface MeterSettings {
  /** Empty where no meter is to be used. */
  readonly address: string;
  readonly ask: "measure" | "read";
  /** Milliseconds. */
  readonly timeout: number;
  readonly digits: number;
  readonly beep: "never" | "outsideLimits" | "always";
}

const within = (value: unknown, least: number, most: number, otherwise: number): number =>
  typeof value === "number" && value >= least && value <= most ? value : otherwise;

export function meterSettings(resource: Uri): MeterSettings {
  const read = workspace.getConfiguration("mendlog.meter", resource);
  const address = read.get<unknown>("address");
  const beep = read.get<unknown>("beep");
  return {
    address: typeof address === "string" ? address.trim() : "",
    ask: read.get<unknown>("ask") === "read" ? "read" : "measure",
    timeout: 1000 * within(read.get("timeout"), 0.1, 120, 5),
    digits: Math.round(within(read.get("digits"), 1, 10, 4)),
    beep: beep === "never" || beep === "always" ? beep : "outsideLimits",
  };
}
