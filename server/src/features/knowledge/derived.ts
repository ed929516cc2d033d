import { memoBy } from "../../base/memo";
import type { LogContext } from "../../judge/context";
import { SCHEMAS } from "../../knowledge/schema";
import { record } from "../../knowledge/shape";
import { shapeBoard } from "../../knowledge/shape-board";
import { shapeDevice } from "../../knowledge/shape-library";
import { shapeShop } from "../../knowledge/shape-shop";
import { typedValue } from "../../knowledge/typed-value";
import type { Board, Device, Shop } from "../../knowledge/types";
import type { YamlTree } from "../../syntax/yaml";
import type { KnowledgeFile } from "../shared/knowledge-file";

/** What the file says as a value, and a context in which what logs show of parts and pins can be shown here. */
export interface Derived {
  readonly ctx: LogContext;
  readonly board?: Board;
  readonly device?: Device;
  readonly shop?: Shop;
}

const derived = memoBy<YamlTree, Derived>();

/**
 * Shaped from the tree and not taken from the snapshot: there whatever is wrong is left out, and an entry is
 * wrong in some way for as long as it is being typed. Kept for as long as neither tree nor snapshot changes.
 */
export const derivedOf = (file: KnowledgeFile): Derived =>
  derived(file.tree, () => derive(file), file.knowledge);

function derive({ uri, kind, text, tree, knowledge }: KnowledgeFile): Derived {
  const { library } = knowledge;
  const bare: LogContext = { library };
  if (kind === "procedure" || kind === "limits") return { ctx: bare };
  const data = record(typedValue(tree.root, SCHEMAS[kind]));
  if (kind === "shop") return { ctx: bare, shop: shapeShop(data) };
  if (kind === "device") {
    const device = shapeDevice(data);
    return device ? { ctx: bare, device } : { ctx: bare };
  }
  const board = shapeBoard(data);
  const loaded = { value: board, tree, problems: tree.problems };
  return { board, ctx: { ...bare, board: { uri, text, loaded, value: board } } };
}
