import type { CheckSettings } from "../checks/check";

/** Settings by folder, because each folder of a workspace may have its own. */
export interface Settings {
  /** Of files that lie in none of the folders. */
  readonly otherwise: CheckSettings;
  readonly folders: readonly FolderSettings[];
}

export interface FolderSettings {
  /** The folder's uri; whether it ends with a slash makes no difference. */
  readonly uri: string;
  readonly settings: CheckSettings;
}

/** The settings of the innermost folder that a file lies in. */
export function settingsOf({ otherwise, folders }: Settings, uri: string): CheckSettings {
  let found: FolderSettings | undefined;
  for (const folder of folders) {
    const within =
      uri === folder.uri || uri.startsWith(folder.uri.endsWith("/") ? folder.uri : `${folder.uri}/`);
    if (within && (!found || folder.uri.length > found.uri.length)) found = folder;
  }
  return found?.settings ?? otherwise;
}
