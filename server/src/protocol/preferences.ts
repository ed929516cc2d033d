import type { Theme } from "../features/shared/picture";
import { SHOWN_BY_DEFAULT, type Shown, type ShownBy } from "./shown";
import { DEFAULT_TYPING, type TypingSettings } from "./typing-settings";

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
  shown(uri: string): Shown {
    return this.#shown(uri);
  }

  /** What the person wants written while typing. */
  get typing(): TypingSettings {
    return this.#typing;
  }

  useTheme(theme: Theme): void {
    this.#theme = theme;
  }

  useSettings(shown: ShownBy, typing: TypingSettings): void {
    this.#shown = shown;
    this.#typing = typing;
  }
}
