import { LanguageClient } from "vscode-languageclient/node";

/**
 * A client that ends without noise. What the editor asks while its window closes or the server restarts finds the
 * connection gone; the library calls that a failed start and writes it into a log that may be closed by then. Nobody
 * waits for those answers any more.
 */
export class QuietClient extends LanguageClient {
  override handleFailedRequest<T>(...[type, token, error, otherwise, ...rest]: Failed<T>): T {
    if (!this.isRunning()) return otherwise;
    return super.handleFailedRequest(type, token, error, otherwise, ...rest);
  }
}

type Failed<T> = Parameters<typeof LanguageClient.prototype.handleFailedRequest<T>>;
