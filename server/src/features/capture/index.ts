export { type CapturedText, capturedText, DIGITS } from "./cell-text";
export { type Asked, type Question, questionAt } from "./question";
export { type ReadingVerdict, verdictAt } from "./verdict";
