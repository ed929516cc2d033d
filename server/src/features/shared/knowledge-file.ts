import type { Knowledge } from "../../judge/context";
import type { SchemaKind } from "../../knowledge/schema";
import type { YamlTree } from "../../syntax/yaml";

/** A board, device, procedure, shop or pooled limits file as it is being edited: what every feature for these files works from. */
export interface KnowledgeFile {
  readonly uri: string;
  readonly kind: Extract<SchemaKind, "board" | "device" | "limits" | "procedure" | "shop">;
  readonly text: string;
  /** Of `text`, as the knowledge store parsed it; nothing here parses again. */
  readonly tree: YamlTree;
  /** What the workspace's files say, this one included as far as it could be used. */
  readonly knowledge: Knowledge;
}
