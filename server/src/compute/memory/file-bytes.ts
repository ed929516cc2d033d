// A file that a log names, as reading it went. Whoever reads keeps to the workspace.

/**
 * Why there are no bytes:
 * - `absent`: nothing is there, or nothing that may be looked at
 * - `outside`: the way leads out of the workspace's folders, by itself or by a link
 * - `not-a-file`: a folder or a device
 * - `unreadable`: it is there and cannot be opened
 * - `too-large`: more bytes than were asked for; `size` says how many
 */
export type NoBytes = {
  readonly ok: false;
  readonly reason: "absent" | "outside" | "not-a-file" | "unreadable" | "too-large";
  readonly size?: number;
};

/** The bytes of a file, or why there are none. */
export type FileBytes = { readonly ok: true; readonly bytes: Uint8Array } | NoBytes;
