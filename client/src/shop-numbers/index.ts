// What all jobs of the workspace add up to, as a page in a tab. The page is the command line's own, shown as it is.
import { commands, Disposable, l10n, ProgressLocation, ViewColumn, type WebviewPanel, window } from "vscode";
import { SHOP_NUMBERS } from "../../../server/src/protocol/custom-requests/shop-numbers";
import type { Feature } from "../mendlog";

/** The command that opens the page. There is one at most: asked for again, it comes to the front with the figures of now. */
export const numbersPage: Feature = (mendlog) => {
  let panel: WebviewPanel | undefined;
  return Disposable.from(
    commands.registerCommand("mendlog.showNumbers", async () => {
      await mendlog.start();
      const title = l10n.t("The shop's numbers");
      // All jobs have to be read for it, which takes a while where that has only begun.
      const page = await window.withProgress({ location: ProgressLocation.Window, title }, () =>
        mendlog.request(SHOP_NUMBERS, {}),
      );
      if (!page) {
        void window.showErrorMessage(
          l10n.t("The checker did not answer, so nothing was done. Its messages say why."),
        );
        return;
      }
      if (panel) panel.reveal();
      else {
        panel = window.createWebviewPanel("mendlog.numbers", title, ViewColumn.Active, {
          enableScripts: false,
          enableFindWidget: true,
          localResourceRoots: [],
        });
        panel.onDidDispose(() => {
          panel = undefined;
        });
      }
      panel.webview.html = page.html;
    }),
    new Disposable(() => panel?.dispose()),
  );
};
