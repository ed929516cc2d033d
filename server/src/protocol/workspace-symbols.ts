import {
  type CancellationToken,
  type Location,
  type SymbolInformation,
  SymbolKind,
  type WorkspaceSymbol,
  type WorkspaceSymbolParams,
} from "vscode-languageserver";
import { stopIfCancelled } from "../base/cancellation";
import { inTurns } from "../base/turns";
import { type NamedThing, thingsNamed } from "../features/workspace-symbols";
import { placeInBoard, titleIn } from "../features/workspace-symbols/place";
import { answering } from "./answer";
import { linedText, toLspRange } from "./convert";
import type { Session } from "./session";

const KINDS: Readonly<Record<NamedThing["kind"], SymbolKind>> = {
  job: SymbolKind.File,
  owner: SymbolKind.Object,
  board: SymbolKind.Module,
  part: SymbolKind.Class,
  net: SymbolKind.Interface,
  symptom: SymbolKind.Event,
};

/** A client that resolves gets the files' names alone, and the place in the one it goes to: the others are not read. */
export function handleWorkspaceSymbols(session: Session): void {
  const { connection, service, documents, can } = session;
  const safely = answering(session);

  connection.onWorkspaceSymbol(
    safely(
      "Names in the workspace",
      null,
      async (
        { query }: WorkspaceSymbolParams,
        token: CancellationToken,
      ): Promise<WorkspaceSymbol[] | SymbolInformation[]> => {
        const steps = thingsNamed(query, service.knowledge.snapshot(), service.memory().logs);
        const things = await inTurns(steps, token);
        if (can.resolveSymbols) return things.map(unplaced);
        const placed: SymbolInformation[] = [];
        for (const thing of things) {
          const location = await placeOf(thing);
          stopIfCancelled(token);
          placed.push({ name: thing.name, kind: kindOf(thing), containerName: thing.container, location });
        }
        return placed;
      },
    ),
  );

  connection.onWorkspaceSymbolResolve((symbol, token) =>
    safely("A name in the workspace", symbol, async (): Promise<WorkspaceSymbol> => {
      const thing = symbol.data as NamedThing | undefined;
      return thing ? { ...symbol, location: await placeOf(thing) } : symbol;
    })(symbol, token),
  );

  const kindOf = ({ kind }: NamedThing): SymbolKind =>
    can.symbolKinds.has(KINDS[kind]) ? KINDS[kind] : SymbolKind.String;

  const unplaced = (thing: NamedThing): WorkspaceSymbol => ({
    name: thing.name,
    kind: kindOf(thing),
    containerName: thing.container,
    location: { uri: documents.clientUri(thing.uri) },
    data: thing,
  });

  const placeOf = async ({ uri, path }: NamedThing): Promise<Location> => {
    const text = documents.text(uri) ?? linedText((await service.read(uri)) ?? "");
    const tree = path && service.knowledgeFile(uri)?.tree;
    const span = (tree && path && placeInBoard(tree, path)) ?? titleIn(text.text);
    return { uri: documents.clientUri(uri), range: toLspRange(text.lines, span) };
  };
}
