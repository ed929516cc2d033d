import type { OwnRequest } from "./request";

/** The colours the editor shows now; also `theme` of the initialization options. */
export interface EditorTheme {
  readonly theme: "light" | "dark" | "high-contrast" | "high-contrast-light";
}

/** Tells the server that the editor has changed its colours, for the pictures that it draws from then on. */
export const THEME: OwnRequest<EditorTheme, null> = { method: "mendlog/theme" };
