import type { PooledLimit } from "../../knowledge/types";
import type { BaselinePlace } from "../baseline/types";

/** What several shops' boards of one type read, as it is for one log. */
export interface Pooled {
  readonly uri: string;
  /** Whose they are, in words. */
  readonly source: string;
  /** Of the log's own revision where the file has it, else of all. */
  at(place: BaselinePlace): PooledLimit | undefined;
}
