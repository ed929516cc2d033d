import type { YamlPath } from "../../../syntax/yaml";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import type { Insert } from "./insert";

/** What a provider of values is asked about. */
export interface ValueQuery {
  readonly file: KnowledgeFile;
  /** Of the value, list positions included. */
  readonly path: YamlPath;
  readonly pattern: string;
  /** What is typed before the cursor, without quotes. */
  readonly typed: string;
}

/** A value on offer; `text` is quoted where it has to be. */
export type Value = Omit<Insert, "text" | "kind"> & { readonly kind?: Insert["kind"] };

export type Provider = (query: ValueQuery) => readonly Value[];
