import {
  type Connection,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  ResponseError,
} from "vscode-languageserver";
import { Service } from "../service";
import type { Host } from "../workspace/host";
import { type Abilities, abilitiesOf } from "./abilities";
import { endSession, report } from "./answer";
import { capabilitiesFor } from "./capabilities";
import { type Diagnostics, handleDiagnostics } from "./diagnostics";
import { Documents } from "./documents";
import { handleFileOperations } from "./file-operations";
import { handleRequests } from "./handlers";
import { handleJobs, type JobsWatch } from "./jobs";
import { refreshLenses, refreshShown } from "./refresh";
import { Remembering } from "./remembering";
import type { Session } from "./session";
import { handleSettings } from "./settings";
import { SHOWN_BY_DEFAULT } from "./shown";
import { handleSync } from "./sync";
import { themeIn } from "./theme";
import { DEFAULT_TYPING } from "./typing-settings";
import { handleWorkspace } from "./workspace";

/** A host that is told which folders the client has open and what changes in them. */
export interface ServerHost extends Host {
  setFolders(uris: readonly string[]): void;
  fileChanged(uri: string, exists: boolean): void;
  /** The uri of the page that explains a check, undefined where there is none. */
  docsPage(code: string): string | undefined;
}

/** Makes the host; what it has to say goes to the client's log. */
export type HostFactory = (say: (message: string) => void, params: InitializeParams) => ServerHost;

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
    const can = abilitiesOf(params.capabilities, params.initializationOptions);
    serve(
      connection,
      makeHost((message) => connection.console.warn(message), params),
      params,
      can,
    );
    return { capabilities: capabilitiesFor(can), serverInfo };
  });
  // Asked for whatever has no handler, which is everything until a client has said what it can do.
  connection.onRequest((method) => {
    throw initialized
      ? new ResponseError(ErrorCodes.MethodNotFound, `There is no method ${method} here.`)
      : new ResponseError(ErrorCodes.ServerNotInitialized, `${method} came before initialize.`);
  });
  connection.listen();
}

/** What each part does stands in its own file; here is only what tells what to which. */
function serve(connection: Connection, host: ServerHost, params: InitializeParams, can: Abilities): void {
  const service = new Service(host);
  const documents = new Documents(service);
  const loading = startingGate();
  const listeners: (() => void)[] = [];
  const session: Session = {
    folders: new Map(),
    onFolders: (listener) => listeners.push(listener),
    foldersChanged: () => {
      for (const listener of listeners) listener();
    },
    connection,
    service,
    documents,
    can,
    ready: loading.opened,
    settled: loading.done,
    typing: DEFAULT_TYPING,
    remembering: new Remembering({ connection, service, can, ready: loading.opened }),
    theme: themeIn(params.initializationOptions),
    shown: () => SHOWN_BY_DEFAULT,
    docsPage: (code) => host.docsPage(code),
  };
  const jobs = handleJobs(session);
  const diagnostics = withJobs(withShown(handleDiagnostics(session), session), jobs);
  session.remembering.onChange = () => diagnostics.everythingChanged();
  session.remembering.onRead = () => {
    refreshLenses(session);
    jobs.changed();
  };
  handleSync(session, diagnostics);
  handleRequests(session);
  const settings = handleSettings(session, params, diagnostics);
  const workspace = handleWorkspace(session, host, params, diagnostics);
  handleFileOperations(session, workspace.rescan);

  connection.onInitialized(async () => {
    try {
      await Promise.all([settings.start(), workspace.start()]);
    } catch (error) {
      report(connection, "Starting", error);
    } finally {
      loading.open();
      // Answers may have been given without the board files, where reading them took long.
      if (loading.wasLate()) diagnostics.everythingChanged();
      session.remembering.start();
    }
  });
  connection.onShutdown(() => {
    endSession(connection);
    session.remembering.stop();
    diagnostics.stop();
    jobs.stop();
  });
}

/** Lenses, hints and colours rest on the same files as the findings. */
const withShown = (diagnostics: Diagnostics, session: Session): Diagnostics => ({
  ...diagnostics,
  everythingChanged() {
    diagnostics.everythingChanged();
    refreshShown(session);
  },
});

/** So does what is told of the jobs, and on what is typed. */
const withJobs = (diagnostics: Diagnostics, jobs: JobsWatch): Diagnostics => ({
  ...diagnostics,
  edited(document) {
    diagnostics.edited(document);
    jobs.edited(document);
  },
  everythingChanged() {
    diagnostics.everythingChanged();
    jobs.changed();
  },
});

/** Milliseconds that the first answers wait for the board files, lest every log name an unknown board at first. */
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
