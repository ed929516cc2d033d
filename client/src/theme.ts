import { ColorThemeKind, window } from "vscode";
import { type EditorTheme, THEME } from "../../server/src/protocol/custom-requests/theme";
import type { Feature } from "./mendlog";

const NAMES: Readonly<Record<ColorThemeKind, EditorTheme["theme"]>> = {
  [ColorThemeKind.Light]: "light",
  [ColorThemeKind.Dark]: "dark",
  [ColorThemeKind.HighContrast]: "high-contrast",
  [ColorThemeKind.HighContrastLight]: "high-contrast-light",
};

/** What the server draws for: an image in a hover knows nothing of what is around it. */
export const editorTheme = (): EditorTheme => ({ theme: NAMES[window.activeColorTheme.kind] });

/** Tells the server of other colours; those at its start come with its options. */
export const theme: Feature = (mendlog) =>
  window.onDidChangeActiveColorTheme(() => {
    if (mendlog.started) void mendlog.request(THEME, editorTheme());
  });
