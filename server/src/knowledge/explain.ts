// Long, because every ajv keyword the schemas use has its sentence here, and a keyword missing from it must be seen.
import type { ErrorObject } from "ajv";
import { nodeAt, type Problem, type YamlNode, type YamlTree } from "../syntax/yaml";
import { didYouMean, nearest } from "../text/nearest";
import type { Span } from "../text/span";
import { span } from "../text/span";
import { quantityFault } from "./quantity-rule";
import { SCHEMAS, type SchemaKind, type SchemaNode, VERSION_KEYS } from "./schema";
import { childSchema, rawSchemaAt, typesOf } from "./schema-walk";

/** Shown of one file; a list of the wrong thing would otherwise repeat itself thousands of times. */
const MAX_PROBLEMS = 200;

const FILE_WORDS: Readonly<Record<SchemaKind, string>> = {
  "front-matter": "A log's front matter",
  board: "A board file",
  device: "A device file",
  family: "A family file",
  limits: "A file of pooled limits",
  maker: "A maker file",
  procedure: "A procedure file",
  shop: "A shop file",
};

/** The schema checker's errors as problems on the file's own characters, in file order. */
export function explainAll(kind: SchemaKind, errors: readonly ErrorObject[], tree: YamlTree): Problem[] {
  // One cause gives several errors: a branch of an `anyOf` besides the `anyOf`, a key's own pattern besides
  // `propertyNames`, an enum or pattern besides the type. The first of these pairs is noise.
  const wholes = errors.filter((error) => error.keyword === "anyOf").map((error) => error.schemaPath);
  const mistyped = new Set(
    errors.filter((error) => error.keyword === "type").map((error) => error.instancePath),
  );
  const problems: Problem[] = [];
  const seen = new Set<string>();
  for (const error of errors) {
    if (error.propertyName !== undefined && error.keyword !== "propertyNames") continue;
    if (wholes.some((whole) => error.schemaPath.startsWith(`${whole}/`))) continue;
    if (error.keyword !== "type" && mistyped.has(error.instancePath) && error.keyword !== "required")
      continue;
    if (problems.length >= MAX_PROBLEMS) break;
    const problem = explain(kind, error, tree);
    // An empty text breaks its pattern, its list and its least length at once.
    const key = `${problem.span.start} ${problem.span.end} ${error.keyword === "required" ? problem.message : ""}`;
    if (seen.has(key)) continue;
    seen.add(key);
    problems.push(problem);
  }
  return problems.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
}

/** The schema whose keyword was not kept: `#/properties/rails/type` is of the schema at `properties`, `rails`. */
function schemaOfError(kind: SchemaKind, { schemaPath }: ErrorObject): SchemaNode {
  let at: unknown = SCHEMAS[kind];
  for (const step of schemaPath.split("/").slice(1, -1)) {
    const key = decodeURIComponent(step).replaceAll("~1", "/").replaceAll("~0", "~");
    at = (at as Readonly<Record<string, unknown>> | undefined)?.[key];
  }
  return (at ?? {}) as SchemaNode;
}

function explain(kind: SchemaKind, error: ErrorObject, tree: YamlTree): Problem {
  const path = errorPath(error);
  const found = nodeAt(tree, path);
  const schema = schemaOfError(kind, error);
  const at = found ? valueSpan(found.node, found.keySpan, tree) : firstSpan(tree);
  const name = pathWords(path, kind);
  const typed = found?.node.kind === "scalar" ? found.node.source : undefined;
  switch (error.keyword) {
    case "type":
      return typeProblem(kind, path, schema, tree, at);
    case "required":
      return missing(kind, path, error.params.missingProperty as string, tree);
    case "additionalProperties":
      return unknownKey(kind, [...path, error.params.additionalProperty as string], schema, tree);
    case "propertyNames": {
      const key = error.params.propertyName as string;
      const entry = nodeAt(tree, [...path, key]);
      return {
        code: "bad-name",
        message:
          `\`${clip(key)}\` is not a name that can be used here. ${schema.propertyNames?.patternErrorMessage ?? ""}`.trim(),
        span: entry?.keySpan ?? at,
      };
    }
    case "enum": {
      const choices = schema.enum ?? [];
      const near = nearest(typed ?? "", choices);
      return {
        code: "not-in-list",
        message: `${name} is \`${clip(typed ?? "")}\`, which is not in its list.`,
        step: `${near === undefined ? "" : `Did you mean \`${near}\`? `}It can be ${list(choices, "or")}.`,
        span: at,
        ...replaceBy(near, at),
      };
    }
    case "const":
      return {
        code: "wrong-version",
        message: `${name} is \`${clip(typed ?? "")}\`; this Mendlog reads version ${schema.const} of the format.`,
        step: `Write \`${path.at(-1)}: ${schema.const}\`, or use a newer Mendlog for a newer file.`,
        span: at,
      };
    case "pattern":
      return {
        code: "wrong-form",
        message: `${name} is \`${clip(typed ?? "")}\`. ${schema.patternErrorMessage ?? "It is not written as it should be."}`,
        span: at,
      };
    case "format":
      return {
        code: "wrong-form",
        message: `${name} is \`${clip(typed ?? "")}\`, which is not a day written as year-month-day, like \`2026-03-02\`.`,
        span: at,
      };
    case "minLength":
      return {
        code: "empty-text",
        message: `${name} is empty. Write something there or remove it.`,
        span: at,
      };
    case "quantity":
      return {
        code: "bad-quantity",
        message: `${name}: ${quantityFault(typed ?? "", schema.quantity ?? "any") ?? ""}`,
        span: at,
      };
    case "minimum":
    case "maximum":
      return {
        code: "out-of-range",
        message: `${name} is ${clip(typed ?? "")}; it must be ${error.keyword === "minimum" ? "at least" : "at most"} ${error.params.limit}.`,
        span: at,
      };
    case "minItems":
    case "maxItems": {
      const has = found?.node.kind === "list" ? found.node.items.length : 0;
      return { code: "wrong-count", message: `${name} has ${count(has)}; ${wantedCount(schema)}.`, span: at };
    }
    case "anyOf":
      return {
        code: "needs-one-of",
        message: `${name} needs ${either(schema.anyOf ?? [])}, to say what it is.`,
        span: at,
      };
    default:
      return { code: "wrong-form", message: `${name} is not written as it should be.`, span: at };
  }
}

const count = (n: number): string => (n === 1 ? "1 entry" : `${n} entries`);

function wantedCount({ minItems, maxItems, description }: SchemaNode): string {
  if (minItems === maxItems)
    return `it must have exactly ${minItems}. ${description ?? ""}`.trim().replace(/\.$/, "");
  return minItems === undefined ? `it may have at most ${maxItems}` : `it must have at least ${minItems}`;
}

const either = (branches: readonly SchemaNode[]): string =>
  branches.map((branch) => (branch.required ?? []).map((key) => `\`${key}\``).join(" with ")).join(" or ");

function typeProblem(
  kind: SchemaKind,
  path: readonly string[],
  schema: SchemaNode,
  tree: YamlTree,
  at: Span,
): Problem {
  const found = nodeAt(tree, path);
  const node = found?.node;
  if (path.length === 0) {
    const is = node ? `this is ${kindOf(node)}` : "there is nothing here";
    const word = kind === "front-matter" ? "A log's front matter" : FILE_WORDS[kind];
    return {
      code: "wrong-type",
      message: `${word} must be a mapping, but ${is}.`,
      step: `Write it as lines of \`key: value\` that begin with \`${VERSION_KEYS[kind]}: 1\`.`,
      span: firstSpan(tree),
    };
  }
  const name = pathWords(path, kind);
  const wanted = typesOf(schema);
  const scalar = node?.kind === "scalar" ? node : undefined;
  const is = node ? kindOf(node) : "empty";
  const problem = (rest: string, newText?: string): Problem => ({
    code: "wrong-type",
    message: `${name} ${rest}`,
    span: at,
    ...replaceBy(newText, at),
  });
  if (wanted.includes("array")) {
    const one =
      scalar && scalar.value !== null
        ? `[${tree.text.slice(at.start - tree.baseOffset, at.end - tree.baseOffset)}]`
        : undefined;
    return problem(
      `must be a list, but it is ${is}.${one ? ` Put it in brackets: \`${clip(one)}\`.` : ""}`,
      one,
    );
  }
  if (wanted.includes("object"))
    return problem(`must be a mapping, \`key: value\` lines below it, but it is ${is}.`);
  if (wanted.includes("boolean")) {
    const means = /^(y|yes|on|true)$/i.test(scalar?.source ?? "")
      ? "true"
      : /^(n|no|off|false)$/i.test(scalar?.source ?? "")
        ? "false"
        : undefined;
    return problem(`must be \`true\` or \`false\`, but it is ${is}.`, means);
  }
  if (wanted.includes("integer") || wanted.includes("number")) {
    const whole = wanted.includes("integer") ? "a whole number" : "a number";
    const quoted = scalar?.quoted && /^\d+$/.test(scalar.source) ? scalar.source : undefined;
    return problem(`must be ${whole}, but it is ${is}.${quoted ? " Take the quotes away." : ""}`, quoted);
  }
  return problem(`must be text${wanted.includes("null") ? " or `~`" : ""}, but it is ${is}.`);
}

function missing(kind: SchemaKind, path: readonly string[], key: string, tree: YamlTree): Problem {
  const empty = nodeAt(tree, [...path, key]);
  const about = rawSchemaAt(kind, [...path, key]);
  if (empty?.keySpan) {
    return {
      code: "missing-value",
      message: `\`${key}\` has no value.`,
      ...(about?.description ? { step: about.description } : {}),
      span: empty.keySpan,
    };
  }
  const parent = nodeAt(tree, path);
  const where = parent?.keySpan ?? (parent && headOf(parent.node));
  const name = path.length === 0 ? FILE_WORDS[kind] : pathWords(path, kind);
  return {
    code: "missing-key",
    message: `${name} needs the key \`${key}\`.`,
    ...(about?.description ? { step: about.description } : {}),
    span: where && where.end > where.start ? where : firstSpan(tree),
  };
}

function unknownKey(kind: SchemaKind, path: readonly string[], schema: SchemaNode, tree: YamlTree): Problem {
  const key = path.at(-1)!;
  const known = Object.keys(schema.properties ?? {});
  const parent = nodeAt(tree, path.slice(0, -1))?.node;
  // A key that is there already is not what was meant.
  const free = known.filter((word) => parent?.kind !== "map" || !parent.byKey.has(word));
  const near = nearest(key, free) ?? nearest(key, known);
  const where = nodeAt(tree, path)?.keySpan ?? firstSpan(tree);
  const place = path.length === 1 ? FILE_WORDS[kind] : pathWords(path.slice(0, -1), kind);
  const own = path.length === 1 ? " A key of your own begins with `x-`." : "";
  return {
    code: "unknown-key",
    message: `${place} has no key \`${clip(key)}\`.${didYouMean(near)}${near ? "" : `${known.length > 10 ? "" : ` It has ${list(known)}.`}${own}`}`,
    span: where,
    ...replaceBy(near, where),
  };
}

const replaceBy = (newText: string | undefined, where: Span) =>
  newText === undefined || where.start === where.end ? {} : { suggestion: [{ span: where, newText }] };

/** "`tolerance` of `+5V`", "entry 2 of `grounds`". */
export function pathWords(path: readonly (string | number)[], kind: SchemaKind): string {
  const last = path.at(-1);
  if (last === undefined) return FILE_WORDS[kind];
  const above = rawSchemaAt(kind, path.slice(0, -1));
  const inList = typesOf(above).includes("array");
  const own = inList ? `entry ${Number(last) + 1}` : `\`${clip(String(last))}\``;
  if (path.length === 1) return own;
  const holder = path.slice(0, -1);
  return inList || childIsNamed(kind, holder)
    ? `${capital(own)} of ${lower(pathWords(holder, kind))}`
    : capital(own);
}

/** True for an entry of a list or a mapping of free names, which tells one `title` from the next. */
function childIsNamed(kind: SchemaKind, path: readonly (string | number)[]): boolean {
  const holder = rawSchemaAt(kind, path.slice(0, -1));
  const last = path.at(-1);
  if (!holder || last === undefined) return false;
  return typesOf(holder).includes("array") || childSchema(holder, last) === holder.additionalProperties;
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
const lower = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);

function kindOf(node: YamlNode): string {
  if (node.kind === "map") return "a mapping";
  if (node.kind === "list") return "a list";
  if (node.value === null) return "empty";
  if (typeof node.value === "number") return `the number \`${clip(node.source)}\``;
  return `the text \`${clip(node.source)}\``;
}

/** The value's characters; for what is empty its key, for a block its first key. */
function valueSpan(node: YamlNode, keySpan: Span | undefined, tree: YamlTree): Span {
  if (node.kind === "scalar" && node.span.end === node.span.start) return keySpan ?? firstSpan(tree);
  if (node.kind !== "scalar" && !node.flow) return keySpan ?? headOf(node);
  return node.span;
}

const headOf = (node: YamlNode): Span =>
  node.kind === "map" && !node.flow ? (node.entries[0]?.keySpan ?? node.span) : node.span;

/** The file's first line that says something: where problems of the whole file are shown. */
function firstSpan(tree: YamlTree): Span {
  const from = Math.max(0, tree.text.search(/[^\s\uFEFF]/));
  const line = /^[^\r\n]*/.exec(tree.text.slice(from))![0].trimEnd();
  const start = tree.baseOffset + from;
  return span(start, start + line.length);
}

/** "`a`, `b` and `c`", or with another word before the last. */
const list = (words: readonly string[], before = "and"): string =>
  words.length < 2
    ? words.map((word) => `\`${word}\``).join("")
    : `${words
        .slice(0, -1)
        .map((word) => `\`${word}\``)
        .join(", ")} ${before} \`${words.at(-1)}\``;

const clip = (text: string, most = 60): string => {
  const line = text.replaceAll(/\s+/g, " ");
  return line.length <= most ? line : `${line.slice(0, most - 3)}...`;
};

/** An error's JSON pointer as keys. */
export const errorPath = (error: ErrorObject): string[] =>
  error.instancePath
    .split("/")
    .slice(1)
    .map((step) => step.replaceAll("~1", "/").replaceAll("~0", "~"));
