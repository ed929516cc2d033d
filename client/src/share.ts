import { l10n } from "vscode";
import type { ShareWords } from "../../server/src/protocol/custom-requests/suspects";

/** "about 95 %", in the editor's language. */
export function shareWords({ how, percent }: ShareWords): string {
  switch (how) {
    case "about":
      return l10n.t("about {0} %", percent);
    case "over":
      return l10n.t("over {0} %", percent);
    case "under":
      return l10n.t("under {0} %", percent);
  }
}
