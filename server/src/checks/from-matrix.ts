import { type MatrixLog, matrixLogs } from "../review/matrix/from-log";
import { matrixReviews, type PhaseReview } from "../review/matrix/log-review";
import type { LogInput } from "./check";

/** The reviews of a log's matrix tables; none without a board. */
export const reviewsIn = ({ doc, ctx }: LogInput): readonly PhaseReview[] =>
  ctx.board ? matrixReviews(doc, ctx.board.value) : [];

export const matricesIn = ({ doc, ctx }: LogInput): readonly MatrixLog[] =>
  ctx.board ? matrixLogs(doc, ctx.board.value) : [];

/** True from the stage on at which a board is to be shown working. */
export const isBeingProven = ({ front }: LogInput): boolean =>
  front.stage === "proving" || front.stage === "returned";
