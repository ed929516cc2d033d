import { type Problem, parseYaml, type YamlTree } from "../syntax/yaml";
import type { Loaded } from "./loaded";
import { SCHEMAS, type SchemaKind, VERSION_KEYS } from "./schema";
import { fitsOf } from "./schema-fits";
import { type Reporter, reporter } from "./semantics";
import { type Data, record } from "./shape";
import { typedValue } from "./typed-value";
import { validate } from "./validate";

/** The way every file goes: text, tree, data as the schema wants it, what is valid of it, the shape. */
export function load<T>(
  kind: SchemaKind,
  text: string,
  shape: (data: Data) => T | undefined,
  semantics: (report: Reporter, value: T) => void = () => {},
  baseOffset = 0,
): Loaded<T> {
  const tree = parseYaml(text, baseOffset, fitsOf(kind));
  if (!tree.root) {
    return { tree, problems: tree.problems.length > 0 ? tree.problems : [emptyFile(kind, tree)] };
  }
  const data = typedValue(tree.root, SCHEMAS[kind]);
  const { problems, whole } = validate(kind, data, tree);
  const value = whole ? shape(record(data)) : undefined;
  const report = reporter(tree);
  if (value !== undefined) semantics(report, value);
  const placed = new Set(problems.map(({ span }) => `${span.start} ${span.end}`));
  const further = report.problems.filter(({ span }) => !placed.has(`${span.start} ${span.end}`));
  const all = inOrder([...tree.problems, ...notBroken(tree, [...problems, ...further])]);
  return value === undefined ? { tree, problems: all } : { value, tree, problems: all };
}

/** Leaves out what is said of a line that is not valid YAML: what stands there is not what was meant. */
function notBroken(tree: YamlTree, problems: readonly Problem[]): readonly Problem[] {
  if (tree.problems.length === 0) return problems;
  const lineOf = (at: number): number => tree.text.lastIndexOf("\n", at - tree.baseOffset - 1);
  const broken = new Set(tree.problems.map((problem) => lineOf(problem.span.start)));
  return problems.filter((problem) => !broken.has(lineOf(problem.span.start)));
}

function emptyFile(kind: SchemaKind, tree: YamlTree): Problem {
  const end = tree.baseOffset + tree.text.length;
  return {
    code: "empty-file",
    message: `There is nothing in it yet. It begins with \`${VERSION_KEYS[kind]}: 1\`.`,
    span: {
      start: Math.min(tree.baseOffset, end),
      end: tree.baseOffset + Math.max(0, tree.text.search(/\r?\n|$/)),
    },
  };
}

const inOrder = (problems: Problem[]): Problem[] =>
  problems.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
