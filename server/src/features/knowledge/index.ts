// What the editor shows in board, device, procedure and shop files.

export type { KnowledgeFile } from "../shared/knowledge-file";
export { completeKnowledge, completeNumbered } from "./completion";
export { defineKnowledge } from "./definition";
export { foldsOfKnowledge } from "./folds";
export { hoverKnowledge } from "./hover";
export { highlightsInKnowledge, tokensInKnowledge } from "./occurrences";
export { selectionsInKnowledge } from "./selection";
export { symbolsOfKnowledge } from "./symbols";
