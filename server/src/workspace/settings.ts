import { defined } from "../base/defined";
import { memo } from "../base/memo";
import type { CheckSettings, OwnSettings, Severity } from "../checks/check";
import type { ShopCheck } from "../knowledge/types";

/** Settings by folder, because each folder of a workspace may have its own. */
export interface Settings {
  /** Of files that lie in none of the folders. */
  readonly otherwise: OwnSettings;
  readonly folders: readonly FolderSettings[];
}

export interface FolderSettings {
  /** The folder's uri; whether it ends with a slash makes no difference. */
  readonly uri: string;
  readonly settings: OwnSettings;
}

/** The settings of the innermost folder that a file lies in. */
export function settingsOf({ otherwise, folders }: Settings, uri: string): OwnSettings {
  let found: FolderSettings | undefined;
  for (const folder of folders) {
    const within =
      uri === folder.uri || uri.startsWith(folder.uri.endsWith("/") ? folder.uri : `${folder.uri}/`);
    if (within && (!found || folder.uri.length > found.uri.length)) found = folder;
  }
  return found?.settings ?? otherwise;
}

type ShopChecks = ReadonlyMap<string, ShopCheck>;

/** Of a shop that says nothing of any check, or of a file that no shop is for. */
export const NO_CHECKS: ShopChecks = new Map();

/** A person's own settings over what the shop file says of its checks; one object for each two of them. */
export const withShop = (own: OwnSettings, shop: ShopChecks): CheckSettings => over(shop)(own);

/** Of several shops and folders each pair is kept, not the last one only. */
const over = memo((shop: ShopChecks) => memo((own: OwnSettings) => join(own, shop)));

function join(own: OwnSettings, shop: ShopChecks): CheckSettings {
  const severity = new Map<string, Severity | "off">();
  for (const [code, { severity: level }] of shop) if (level !== undefined) severity.set(code, level);
  for (const [code, level] of own.severity) {
    if (level === "default") severity.delete(code);
    else severity.set(code, level);
  }
  const options = new Map<string, ReadonlyMap<string, number>>();
  for (const [code, { options: chosen }] of shop) if (chosen.size > 0) options.set(code, chosen);
  for (const [code, chosen] of own.options ?? [])
    options.set(code, new Map([...(options.get(code) ?? []), ...chosen]));
  return defined({ severity, options: options.size > 0 ? options : undefined });
}
