// The language server in a worker of the browser, where the editor itself runs in one: no process and no disk.
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from "vscode-languageserver/browser";
import { version } from "../../package.json";
import { clientHost } from "./protocol/client-host";
import { refuseWrongParams } from "./protocol/params";
import { createServer } from "./protocol/server";

declare const self: ConstructorParameters<typeof BrowserMessageReader>[0];

const connection = createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self), {
  messageStrategy: refuseWrongParams,
});
createServer(
  connection,
  (_, { initializationOptions }) => {
    const pages: unknown = initializationOptions?.pages;
    return clientHost(connection, typeof pages === "string" ? pages : undefined);
  },
  { name: "Mendlog", version },
);
