import { l10n } from "vscode";

/** A share as the server words it, "about 95 %", in the editor's language; any other text stays as it is. */
export function shareWords(share: string): string {
  const [, how, percent] = /^(about|over|under) ([\d.]+) %$/.exec(share) ?? [];
  switch (how) {
    case "about":
      return l10n.t("about {0} %", percent ?? "");
    case "over":
      return l10n.t("over {0} %", percent ?? "");
    case "under":
      return l10n.t("under {0} %", percent ?? "");
    default:
      return share;
  }
}
