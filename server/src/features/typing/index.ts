// Filling in the tables of a log with as few keys as can be.
export { advance, digitsBelow } from "./advance";
export { appendRow } from "./append-row";
export { fillBelow } from "./fill-below";
export { type Direction, nextCell, type TypingStep } from "./next-cell";
export { type PasteStep, pasteCells } from "./paste";
export { lineAbove, lineEndAt, lineSpanAt } from "./sheet";
export { type EnterAt, enterAt, startRow } from "./start-row";
export { isStartedRow, type StartedRow, startedBy, takeBack } from "./started";
export { leaveRow } from "./tidy";
export { writeCell } from "./write-cell";
