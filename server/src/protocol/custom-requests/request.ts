/**
 * A request of our own, between our client and our server: its name and the shapes of what is asked and answered. One
 * file of this folder each, free of the protocol's library, because both sides import it. The server answers `null` where
 * a document is not open or is no log.
 */
export interface OwnRequest<Params, Result> {
  /** Begins with `mendlog/`. */
  readonly method: `mendlog/${string}`;
  /** Never there; it only ties the types to the name. */
  readonly types?: (params: Params) => Result;
}

/** What most of them ask about. */
export interface OfDocument {
  readonly uri: string;
}
