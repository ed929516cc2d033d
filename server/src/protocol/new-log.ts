import { defined } from "../base/defined";
import { boardFromWords, newLogText } from "../features/new-log";
import { newLogChoices } from "../features/new-log/choices";
import { logPathFor, uriIn } from "../features/new-log/place";
import { canonicalUri } from "../workspace/uri";
import { NEW_LOG, NEW_LOG_BOARD, NEW_LOG_CHOICES, type NewLog } from "./custom-requests/new-log";
import { onOwn } from "./own-request";
import { whenRemembered } from "./remembered";
import type { Session } from "./session";

/** What a new log is made of. The client asks and writes; nothing is kept here. */
export function handleNewLog(session: Session): void {
  const { service } = session;
  const folderOf = (folder: string | undefined) =>
    folder === undefined ? {} : { folder: canonicalUri(folder) };

  onOwn(session, NEW_LOG_CHOICES, "Choices for a new log", async ({ today }, token) => {
    await whenRemembered(session, token);
    return newLogChoices(service.jobs(), service.knowledge.snapshot(), today);
  });

  onOwn(session, NEW_LOG_BOARD, "A board by its name", async ({ words }, token) => {
    await whenRemembered(session, token);
    const { boards, library } = service.knowledge.snapshot();
    const named = boardFromWords(words, { boards, library, logs: service.jobs() });
    return named ? defined({ id: named.id, title: named.title, near: named.near }) : null;
  });

  onOwn(session, NEW_LOG, "A new log", async ({ facts, folder }, token): Promise<NewLog> => {
    await whenRemembered(session, token);
    const { boards, library } = service.knowledge.snapshot();
    const board = boardFromWords(facts.board ?? "", { boards, library, logs: service.jobs() });
    const { board: _words, ...others } = facts;
    const { folder: found, ...place } = logPathFor(
      defined({
        ...others,
        board: board?.id,
        ...folderOf(folder),
        boardUri: board?.file ? board.file.uri : undefined,
        logs: service.jobs(),
        files: [...(await service.files()), ...service.openLogs()],
      }),
    );
    return defined({
      text: newLogText(facts, board, library),
      ...place,
      uri: found === undefined ? undefined : uriIn(found, place.name),
    });
  });
}
