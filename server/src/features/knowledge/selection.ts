import { span } from "../../text/span";
import { nested } from "../selection-range/nested";
import { yamlSpans } from "../selection-range/yaml";
import type { KnowledgeFile } from "../shared/knowledge-file";

/** What a selection in a knowledge file grows to, the smallest first. */
export const selectionsInKnowledge = ({ text, tree }: KnowledgeFile, offset: number) =>
  nested([...yamlSpans(tree.root, offset), span(0, text.length)], offset);
