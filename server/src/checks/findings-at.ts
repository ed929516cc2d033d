import { memo } from "../base/memo";
import { placedSpan } from "../log/table-pieces";
import type { Finding } from "./check";

/**
 * Findings of a block or of some rows where these stand; those in front of a change are the very same objects again.
 * @param start offset that is added to their spans
 */
export const findingsAt = memo((found: readonly Finding[], start: number): readonly Finding[] =>
  start === 0 ? found : found.map((finding) => ({ ...finding, span: placedSpan(finding.span, start) })),
);
