import type { Theme } from "../features/shared/picture";
import { type DisplaySettings, SHOWN_BY_DEFAULT, type ShownBy } from "./display-settings";
import { DEFAULT_TYPING, type EditingSettings } from "./editing-settings";

/** How the person wants to have it, as the editor said last. */
export class Preferences {
  #theme: Theme;
  #shown: ShownBy = () => SHOWN_BY_DEFAULT;
  #typing = DEFAULT_TYPING;

  constructor(theme: Theme) {
    this.#theme = theme;
  }

  /** Of the editor, for pictures that know nothing of what is around them. */
  get theme(): Theme {
    return this.#theme;
  }

  /** What is shown beside the text of a log, as the settings of its folder stand. */
  shown(uri: string): DisplaySettings {
    return this.#shown(uri);
  }

  /** What the person wants written while typing. */
  get typing(): EditingSettings {
    return this.#typing;
  }

  useTheme(theme: Theme): void {
    this.#theme = theme;
  }

  useSettings(shown: ShownBy, typing: EditingSettings): void {
    this.#shown = shown;
    this.#typing = typing;
  }
}
