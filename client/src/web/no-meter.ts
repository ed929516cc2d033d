import { commands, Disposable, l10n, window } from "vscode";
import type { Feature } from "../mendlog";

/** In place of the meter: no page of a browser may open a connection of its own. */
export const noMeter: Feature = () =>
  Disposable.from(
    commands.registerCommand("mendlog.readMeter", () =>
      window.showWarningMessage(
        l10n.t(
          "A meter cannot be read from a browser. Open this folder in the editor on your computer to read it.",
        ),
      ),
    ),
    commands.registerCommand("mendlog.stopMeter", () => undefined),
  );
