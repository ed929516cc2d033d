import { isTheme, type Theme } from "../features/shared/picture";
import { answering } from "./answer";
import { THEME } from "./custom-requests/theme";
import type { Session } from "./session";

/** The theme that options name; light where they name none that is known. Anything may stand there. */
export function themeIn(options: unknown): Theme {
  const named =
    typeof options === "object" && options !== null && "theme" in options ? options.theme : undefined;
  return isTheme(named) ? named : "light";
}

/** Takes over the colours of an editor that has changed them. */
export function handleTheme(session: Session): void {
  session.connection.onRequest(
    THEME.method,
    answering(session)("The theme", null, (params: unknown) => {
      session.preferences.useTheme(themeIn(params));
      return null;
    }),
  );
}
