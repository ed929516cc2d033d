import type { BaseLanguageClient } from "vscode-languageclient";

/**
 * Has a client end without noise. What the editor asks while its window closes or the server restarts finds the
 * connection gone; the library calls that a failed start and writes it into a log that may be closed by then. Nobody
 * waits for those answers any more.
 */
export function quiet<C extends BaseLanguageClient>(client: C): C {
  const failed = client.handleFailedRequest.bind(client);
  client.handleFailedRequest = (type, token, error, otherwise, ...rest) =>
    client.isRunning() ? failed(type, token, error, otherwise, ...rest) : otherwise;
  return client;
}
