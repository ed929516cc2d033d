import { commands, Location, l10n, Position, Range, Uri, window } from "vscode";
import { SHOW_PLACES } from "../../../server/src/protocol/command-names";
import type { Feature } from "../mendlog";

/** As they come over the wire. */
interface WirePosition {
  readonly line: number;
  readonly character: number;
}
interface WireLocation {
  readonly uri: string;
  readonly range: { readonly start: WirePosition; readonly end: WirePosition };
}

/** Shows the places that a lens counts, in the editor's own list; a lens carries them with it, a key of one's own nothing. */
export const showPlaces: Feature = () =>
  commands.registerCommand(
    SHOW_PLACES,
    (uri?: string, at?: WirePosition, places?: readonly WireLocation[]) => {
      if (uri === undefined || at === undefined || !places) {
        void window.showInformationMessage(
          l10n.t("Click a line above a table or a heading to see the places it counts."),
        );
        return undefined;
      }
      return commands.executeCommand(
        "editor.action.showReferences",
        Uri.parse(uri, true),
        positionOf(at),
        places.map(({ uri: of, range }) => new Location(Uri.parse(of, true), rangeOf(range))),
      );
    },
  );

const positionOf = ({ line, character }: WirePosition): Position => new Position(line, character);
const rangeOf = ({ start, end }: WireLocation["range"]): Range =>
  new Range(positionOf(start), positionOf(end));
