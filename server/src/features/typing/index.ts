// Filling in the tables of a log with as few keys as can be.
export { appendRow } from "./append-row";
export { type Direction, nextCell, type Step } from "./next-cell";
export { type Pasted, pasteCells } from "./paste";
export { lineAbove, lineEndAt, lineOf } from "./sheet";
export { enterAt, startRow } from "./start-row";
export { isStartedRow, type StartedRow, startedBy, takeBack } from "./started";
export { writeCell } from "./write-cell";
