import type { CancellationToken, CodeLens, CodeLensParams, Command, Location } from "vscode-languageserver";
import { stopIfCancelled } from "../base/cancellation";
import { nextTurn } from "../base/turns";
import { type Lens, type LensTitle, symptomsPlace } from "../features/code-lens";
import { answering } from "./answer";
import { SHOW_PLACES, WRITE_SUSPECTS } from "./command-names";
import { toLspRange } from "./convert";
import { lensesIn, lensTitleIn } from "./features";
import { locationOf } from "./places";
import type { Session } from "./session";

/** What a lens needs to be found again when it is to be filled in. */
interface LensData {
  /** As the client wrote it. */
  readonly uri: string;
  readonly lens: Lens;
}

/** A lens without a command is not shown by some editors and shown as a fault by others. */
const NO_COMMAND = "";

/**
 * Places are given at once and cost no diagnosis; a lens is filled in when the editor is about to show it.
 */
export function handleCodeLens(session: Session): void {
  const { connection, service, documents, ready } = session;
  const safely = answering(session);

  connection.onCodeLens(
    safely("Code lenses", null, async ({ textDocument }: CodeLensParams): Promise<CodeLens[] | null> => {
      await ready;
      const document = documents.get(textDocument.uri);
      if (!document || !session.preferences.shown(document.uri).lenses) return null;
      return lensesIn(service, document.uri).map((lens) => ({
        range: toLspRange(document.lines, { start: lens.span.start, end: lens.span.start }),
        data: { uri: textDocument.uri, lens } satisfies LensData,
      }));
    }),
  );

  connection.onCodeLensResolve(async (lens: CodeLens, token: CancellationToken): Promise<CodeLens> => {
    const unknown = { ...lens, command: { title: "Suspects", command: NO_COMMAND } };
    return safely("A code lens", unknown, async () => {
      // What came in meanwhile, an edit or a cancellation, is heard before the work is begun.
      await nextTurn(token);
      const data = lens.data as LensData | undefined;
      const asked = data && documents.get(data.uri);
      if (asked && (data.lens.of === "log" || data.lens.of === "section")) {
        await session.diagnoses.make(asked.uri, token);
      }
      const document = data && documents.get(data.uri);
      const told = document && lensTitleIn(service, document.uri, data.lens);
      if (!told) return unknown;
      return { ...lens, command: await commandOf(told, lens, data.uri, session, token) };
    })(lens, token);
  });
}

/** What a click does, as far as this client can do it. */
async function commandOf(
  told: LensTitle,
  lens: CodeLens,
  uri: string,
  session: Session,
  token: CancellationToken,
): Promise<Command> {
  const { title, writes, shows, logs } = told;
  const { can } = session;
  if (writes && can.applyEdit) return { title, command: WRITE_SUSPECTS, arguments: [uri] };
  if (can.showPlaces && (shows || logs)) {
    const places = shows
      ? await Promise.all(shows.map((target) => locationOf(target, session)))
      : await symptomsOf(logs ?? [], session, token);
    const known = places.filter((place) => place !== undefined);
    return { title, command: SHOW_PLACES, arguments: [uri, lens.range.start, known] };
  }
  return { title, command: NO_COMMAND };
}

/** More earlier jobs than these are not read for a list that nobody reads to its end. */
const MOST_LOGS = 40;

async function symptomsOf(
  logs: readonly string[],
  session: Session,
  token: CancellationToken,
): Promise<(Location | undefined)[]> {
  const places: (Location | undefined)[] = [];
  for (const uri of logs.slice(0, MOST_LOGS)) {
    const text = await session.service.read(uri);
    stopIfCancelled(token);
    if (text !== undefined) places.push(await locationOf({ uri, span: symptomsPlace(text) }, session));
  }
  return places;
}
