// What the editor shows in board, device, procedure and shop files.
export { completeKnowledge, completeNumbered } from "./completion";
export { defineKnowledge } from "./definition";
export type { KnowledgeFile } from "./file";
export { foldsOfKnowledge } from "./folds";
export { hoverKnowledge } from "./hover";
export { highlightsInKnowledge, tokensInKnowledge } from "./occurrences";
export { selectionsInKnowledge } from "./selection";
export { symbolsOfKnowledge } from "./symbols";
