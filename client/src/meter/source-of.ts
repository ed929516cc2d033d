// Which source the settings name, and what to say where they name none that may be used.
import { commands, Disposable, l10n, type Uri, window, workspace } from "vscode";
import { parseAddress } from "./address";
import { Appended } from "./appended";
import { Instrument } from "./instrument";
import { type ReadingsPath, readingsPath } from "./readings-path";
import type { MeterSettings } from "./settings";
import type { Failure, ReadingSource } from "./source";
import { failureWords, fileFailureWords } from "./words";

export interface Named {
  readonly source: ReadingSource;
  /** What went wrong with it, and what to do about it. */
  failureWords(failure: Failure): string;
}

/** Keeps the source that was last asked, for as long as the settings name it. */
export class ReadingSources extends Disposable {
  #kept: { readonly at: string; readonly source: ReadingSource } | undefined;

  constructor() {
    super(() => this.#kept?.source.dispose());
  }

  /** Undefined where none may be used, which the person was told. A file counts before a meter on the network. */
  async of(settings: MeterSettings, log: Uri): Promise<Named | undefined> {
    if (settings.file.path !== "") {
      const { path } = settings.file;
      const found = await readingsPath(settings.file, folderOf(log));
      // As for an instrument, the words ask to look at the program and at the setting.
      if (!found.ok && found.why === "absent")
        return say(fileFailureWords({ kind: "unreachable", detail: found.detail ?? "" }, path));
      if (!found.ok) return say(barredWords(found, path));
      return {
        source: this.#keep(`file ${found.path}`, () => new Appended(found.path)),
        failureWords: (failure) => fileFailureWords(failure, path),
      };
    }
    const address = parseAddress(settings.address);
    if (!address) return say(noAddressWords(settings));
    return {
      source: this.#keep(`address ${address.host} ${address.port}`, () => new Instrument(address)),
      failureWords: (failure) => failureWords(failure, settings.address),
    };
  }

  #keep(at: string, make: () => ReadingSource): ReadingSource {
    if (this.#kept?.at === at) return this.#kept.source;
    this.#kept?.source.dispose();
    const source = make();
    this.#kept = { at, source };
    return source;
  }
}

function folderOf(log: Uri): string | undefined {
  const folder = workspace.getWorkspaceFolder(log)?.uri;
  return folder?.scheme === "file" ? folder.fsPath : undefined;
}

function say(message: string): undefined {
  const settings = l10n.t("Open the settings");
  void window
    .showWarningMessage(message, settings)
    .then((pressed) =>
      pressed === settings
        ? commands.executeCommand("workbench.action.openSettings", "mendlog.meter")
        : undefined,
    );
}

function barredWords({ why }: Exclude<ReadingsPath, { ok: true }>, path: string): string {
  switch (why) {
    case "not-own":
      return l10n.t(
        "{0} is a whole path among the workspace's settings, so no readings are taken from it. Give it in your own settings, or a path within the workspace.",
        path,
      );
    case "outside":
      return l10n.t(
        "{0} lies outside the workspace, so no readings are taken from it. Give a whole path in your own settings.",
        path,
      );
    case "no-folder":
    case "absent":
      return l10n.t(
        "{0} is a path within a workspace, and the log is in no folder on disk that is open. Open its folder, or give a whole path in your own settings.",
        path,
      );
  }
}

function noAddressWords({ address }: MeterSettings): string {
  if (address === "" && !workspace.isTrusted)
    return l10n.t(
      "No meter is set up. In Restricted Mode an address among the workspace's settings does not count: trust the folder, or give the address in your own settings.",
    );
  return address === ""
    ? l10n.t("No meter is set up. Give its network address in the settings, such as 192.168.1.50.")
    : l10n.t(
        '"{0}" is no network address of a meter. Use a name or an address, such as 192.168.1.50:5025.',
        address,
      );
}
