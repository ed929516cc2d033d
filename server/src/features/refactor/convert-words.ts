import type { ColumnRole } from "../../knowledge/types";

/** What people call that which a column or a row is of. */
export const wordFor = (role: ColumnRole): string => (role === "ref" ? "part" : role);
