export { cellText, DIGITS, type Written } from "./cell-text";
export { type Asked, type Question, questionAt } from "./question";
export { type Shown, verdictAt } from "./verdict";
