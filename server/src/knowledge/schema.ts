import board from "../../../schemas/board.schema.json";
import device from "../../../schemas/device.schema.json";
import family from "../../../schemas/family.schema.json";
import frontMatter from "../../../schemas/front-matter.schema.json";
import limits from "../../../schemas/limits.schema.json";
import maker from "../../../schemas/maker.schema.json";
import procedure from "../../../schemas/procedure.schema.json";
import shop from "../../../schemas/shop.schema.json";

/** Which kind of file or part of a file it is that has a format of its own under `schemas/`. */
export type SchemaKind =
  | "front-matter"
  | "board"
  | "device"
  | "family"
  | "limits"
  | "maker"
  | "procedure"
  | "shop";

type TypeName = "object" | "array" | "string" | "integer" | "number" | "boolean" | "null";

/** The part of JSON Schema (draft 7) that the files under `schemas/` use, with two annotations of our own. */
export interface SchemaNode {
  /** Of a whole schema: the address it is known by. */
  readonly $id?: string;
  readonly title?: string;
  readonly description?: string;
  readonly type?: TypeName | readonly TypeName[];
  readonly required?: readonly string[];
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly patternProperties?: Readonly<Record<string, SchemaNode>>;
  readonly additionalProperties?: false | SchemaNode;
  readonly propertyNames?: SchemaNode;
  readonly items?: SchemaNode;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly minLength?: number;
  readonly enum?: readonly string[];
  readonly const?: number;
  readonly pattern?: string;
  /** Said in place of the pattern; editors' JSON and YAML support show it too. */
  readonly patternErrorMessage?: string;
  readonly format?: "date";
  readonly anyOf?: readonly SchemaNode[];
  /** The text is a quantity of this dimension or one of these; "any" for whatever has a unit; with "both-ways" "-30 % to +50 %" too. */
  readonly quantity?: string | readonly string[];
  /**
   * The text names something defined elsewhere: a top-level key of the same file ("parts"), "pin" for a
   * `part.pin`, or something outside it ("device", "procedure", "board-file", "job", ...).
   */
  readonly refersTo?: string;
}

/** The schemas as they are written, with the annotations of our own that checkers of JSON pass over. */
export const SCHEMAS: Readonly<Record<SchemaKind, SchemaNode>> = {
  "front-matter": frontMatter as SchemaNode,
  board: board as SchemaNode,
  device: device as SchemaNode,
  family: family as SchemaNode,
  limits: limits as SchemaNode,
  maker: maker as SchemaNode,
  procedure: procedure as SchemaNode,
  shop: shop as SchemaNode,
};

/** The key that opens a file of each kind, with the format's version behind it. */
export const VERSION_KEYS: Readonly<Record<SchemaKind, string>> = {
  "front-matter": "mendlog",
  board: "mendlog-board",
  device: "mendlog-device",
  family: "mendlog-family",
  limits: "mendlog-limits",
  maker: "mendlog-maker",
  procedure: "mendlog-procedure",
  shop: "mendlog-shop",
};
