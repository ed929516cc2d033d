import type { Procedure } from "../../knowledge/types";

/** How a kind of table is laid out wide. */
export type WideForm = NonNullable<Procedure["wide"]>;

/** Lines of the new table, or why there can be none. */
export type Converted =
  | { readonly ok: true; readonly lines: readonly string[] }
  | { readonly ok: false; readonly reason: string };
