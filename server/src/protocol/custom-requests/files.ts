import type { FileBytes } from "../../workspace/host";
import type { OwnRequest } from "./request";

// The other way around: what a server without a disk of its own, as in a browser, asks of our client.

export interface InFolders {
  /** Uris of folders, without a "/" at their end. */
  readonly folders: readonly string[];
}

/** Uris of the Markdown and knowledge files in the folders. */
export const LIST_FILES: OwnRequest<InFolders, readonly string[]> = { method: "mendlog/files/list" };

/** Uris of the memory images in the folders, none of them behind a link. */
export const LIST_IMAGES: OwnRequest<InFolders, readonly string[]> = { method: "mendlog/files/images" };

/** A file's text; null where it cannot be read. */
export const READ_TEXT: OwnRequest<{ readonly uri: string }, string> = { method: "mendlog/files/text" };

/** No more than `most` bytes of a file in one of the folders. */
export interface WantedBytes extends InFolders {
  readonly uri: string;
  readonly most: number;
}

/** All of a file's bytes, or why there are none. They travel as they are: a worker's messages are copied, not written out. */
export const READ_BYTES: OwnRequest<WantedBytes, FileBytes> = { method: "mendlog/files/bytes" };
