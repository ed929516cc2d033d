export { type CapturedText as Written, capturedText as cellText, DIGITS } from "./cell-text";
export { type Asked, type Question, questionAt } from "./question";
export { type ReadingVerdict as Shown, verdictAt } from "./verdict";
