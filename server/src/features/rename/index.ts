// Rename: another name for a part, net, symptom, ... in its board file and in every log of that board.
export { type RenameEdit, renameEdits } from "./edits";
export { filesOf, nameRefusal, renameRefusal } from "./may-rename";
