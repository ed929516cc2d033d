import {
  CancellationTokenSource,
  type Connection,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  ResponseError,
} from "vscode-languageserver";
import { Service } from "../service";
import { report } from "./answer";
import { capabilitiesFor } from "./capabilities";
import { type ClientAbilities, clientAbilities } from "./client-abilities";
import { Diagnoses } from "./diagnoses";
import { handleDiagnostics } from "./diagnostics";
import { Documents } from "./documents";
import { sessionEvents } from "./events";
import { handleFileOperations } from "./file-operations";
import { Folders } from "./folders";
import { handleRequests } from "./handlers";
import { handleJobs } from "./jobs";
import { LogIndexer } from "./log-indexer";
import { WRONG_PARAMS } from "./params";
import { Preferences } from "./preferences";
import { refreshes } from "./refresh";
import type { HostFactory, ServerHost } from "./server-host";
import type { Session } from "./session";
import { handleSettings } from "./settings";
import { handleSync } from "./sync";
import { themeIn } from "./theme";
import { TypingRest } from "./typing-rest";
import { handleWorkspace } from "./workspace";

/** Serves one client over the connection until it ends. */
export function createServer(
  connection: Connection,
  makeHost: HostFactory,
  serverInfo: { readonly name: string; readonly version: string },
): void {
  let initialized = false;
  connection.onInitialize((params): InitializeResult => {
    if (initialized) throw new ResponseError(ErrorCodes.InvalidRequest, "The session was begun already.");
    initialized = true;
    const can = clientAbilities(params.capabilities, params.initializationOptions);
    serve(
      connection,
      makeHost((message) => connection.console.warn(message), params),
      params,
      can,
    );
    return { capabilities: capabilitiesFor(can), serverInfo };
  });
  // Asked for whatever has no handler, which is everything until a client has said what it can do.
  connection.onRequest((method, params) => {
    if (initialized && method === WRONG_PARAMS)
      throw new ResponseError(ErrorCodes.InvalidParams, (params as { readonly wrong: string }).wrong);
    throw initialized
      ? new ResponseError(ErrorCodes.MethodNotFound, `There is no method ${method} here.`)
      : new ResponseError(ErrorCodes.ServerNotInitialized, `${method} came before initialize.`);
  });
  connection.listen();
}

/** What each part does stands in its own file; here is only what there is of it. */
function serve(
  connection: Connection,
  host: ServerHost,
  params: InitializeParams,
  can: ClientAbilities,
): void {
  const loading = startingGate();
  const end = new CancellationTokenSource();
  const service = new Service(host);
  const shared = { connection, service, can, ready: loading.opened, ended: end.token };
  const events = sessionEvents();
  const typingRest = new TypingRest();
  const session: Session = {
    ...shared,
    events,
    typingRest,
    documents: new Documents(service),
    folders: new Folders(params, loading.done),
    preferences: new Preferences(themeIn(params.initializationOptions)),
    diagnoses: new Diagnoses(service),
    remembering: new LogIndexer({ ...shared, events, typingRest }),
    refreshes: refreshes(connection, can),
    docsPage: (code) => host.docsPage(code),
  };
  handleDiagnostics(session);
  refreshShown(session);
  handleJobs(session);
  handleSync(session);
  handleRequests(session);
  const settings = handleSettings(session, params);
  const workspace = handleWorkspace(session, host);
  handleFileOperations(session, workspace.rescan);

  connection.onInitialized(async () => {
    try {
      await Promise.all([settings.start(), workspace.start()]);
    } catch (error) {
      report(connection, "Starting", error);
    } finally {
      loading.open();
      // Answers may have been given without the board files, where reading them took long.
      if (loading.wasLate()) events.everythingChanged.fire();
      session.remembering.start();
    }
  });
  connection.onShutdown(() => end.cancel());
}

/** Lenses, hints and colours rest on the same files as the findings; lenses tell of the earlier jobs too. */
function refreshShown({ events, refreshes }: Session): void {
  events.everythingChanged.on(() => {
    refreshes.lenses();
    refreshes.hints();
    refreshes.colours();
  });
  events.remembered.on(() => refreshes.lenses());
}

/** Milliseconds that the first answers wait for the board files, so that no log names an unknown board at first. */
const PATIENCE = 2000;

function startingGate() {
  let open = () => {};
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  let end = () => {};
  const done = new Promise<void>((resolve) => {
    end = resolve;
  });
  let late = false;
  const timer = setTimeout(() => {
    late = true;
    open();
  }, PATIENCE);
  return {
    opened,
    /** When everything is read, however long it takes. */
    done,
    open() {
      clearTimeout(timer);
      open();
      end();
    },
    wasLate: () => late,
  };
}
