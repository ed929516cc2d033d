// What all jobs of the workspace add up to, as a page in a tab. The page is the command line's own, shown as it is.
import { commands, Disposable, l10n, ViewColumn, type WebviewPanel, window } from "vscode";
import { SHOP_NUMBERS } from "../../../server/src/protocol/custom-requests/shop-numbers";
import type { Feature } from "../mendlog";

/** The command that opens the page. There is one at most: asked for again, it comes to the front with the figures of now. */
export const shopNumbers: Feature = (mendlog) => {
  let panel: WebviewPanel | undefined;
  return Disposable.from(
    commands.registerCommand("mendlog.showNumbers", async () => {
      await mendlog.start();
      const page = await mendlog.request(SHOP_NUMBERS, {});
      if (!page) {
        void window.showErrorMessage(
          l10n.t("The checker did not answer, so nothing was done. Its messages say why."),
        );
        return;
      }
      if (panel) panel.reveal();
      else {
        panel = window.createWebviewPanel(
          "mendlog.numbers",
          l10n.t("The shop's numbers"),
          ViewColumn.Active,
          {
            enableScripts: false,
            enableFindWidget: true,
            localResourceRoots: [],
          },
        );
        panel.onDidDispose(() => {
          panel = undefined;
        });
      }
      panel.webview.html = page.html;
    }),
    new Disposable(() => panel?.dispose()),
  );
};
