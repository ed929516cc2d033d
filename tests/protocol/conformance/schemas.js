// JSON Schemas of what every message of the protocol carries, made from the TypeScript declarations of
// `vscode-languageserver-protocol`: they are generated from the specification's own meta-model, which is in no package itself.
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { Ajv } from "ajv";

const require = createRequire(import.meta.url);
const GENERATOR = require.resolve("ts-json-schema-generator");
const PROTOCOL = dirname(require.resolve("vscode-languageserver-protocol/node"));
const DECLARATIONS = join(PROTOCOL, "..", "common", "api.d.ts");

const versionOf = (from) => JSON.parse(readFileSync(from, "utf8")).version;

/** Made once for a version of the declarations: it takes half a minute of a slow machine. */
const KEPT = join(
  tmpdir(),
  `mendlog-protocol-schemas-${versionOf(join(PROTOCOL, "..", "..", "package.json"))}-1.json`,
);

/** Each request and notification with the words of its types, as the declarations have them. */
function messagesIn(ts) {
  const program = ts.createProgram([DECLARATIONS], { skipLibCheck: true, strict: true });
  const checker = program.getTypeChecker();
  const api = checker.getSymbolAtLocation(program.getSourceFile(DECLARATIONS));
  const words = (type) => checker.typeToString(type, undefined, ts.TypeFormatFlags.NoTruncation);
  const exported = checker.getExportsOfModule(api);
  const names = new Set(exported.map(({ name }) => name));
  const messages = [];
  for (const symbol of exported) {
    const of = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
    if (!(of.flags & ts.SymbolFlags.Module) || !/(?:Request|Notification)$/.test(symbol.name)) continue;
    const inside = new Map(checker.getExportsOfModule(of).map((each) => [each.name, each]));
    const [type, method] = [inside.get("type"), inside.get("method")];
    if (!type) continue;
    const shape = checker.getTypeOfSymbol(type);
    const kind = shape.symbol?.name;
    const given = checker.getTypeArguments(shape).map(words);
    const named = method && checker.getTypeOfSymbol(method);
    const name = named?.isStringLiteral?.() ? named.value : undefined;
    if (name === undefined) continue;
    if (kind === "ProtocolRequestType") messages.push({ name, params: given[0], result: given[1] });
    else if (kind === "ProtocolRequestType0") messages.push({ name, result: given[0] });
    else if (kind === "ProtocolNotificationType") messages.push({ name, params: given[0] });
    else if (kind === "ProtocolNotificationType0") messages.push({ name });
  }
  return { messages, names };
}

async function made() {
  const ts = createRequire(GENERATOR)("typescript");
  const { messages, names } = messagesIn(ts);
  const lines = [];
  const used = new Set();
  for (const [at, { params, result }] of messages.entries()) {
    for (const [letter, words] of [
      ["P", params],
      ["R", result],
    ]) {
      // Nothing is JSON's null in an answer.
      if (words === undefined) continue;
      for (const [word] of words.matchAll(/\b[A-Za-z_]\w*/g)) if (names.has(word)) used.add(word);
      // An interface stays a definition of its own where an alias would be dissolved.
      lines.push(`export interface ${letter}${at} { value: ${words.replace(/\bvoid\b/g, "null")}; }`);
    }
  }
  const folder = join(tmpdir(), `mendlog-protocol-${process.pid}`);
  mkdirSync(folder, { recursive: true });
  const path = join(folder, "messages.ts");
  const from = JSON.stringify(DECLARATIONS.replace(/\.d\.ts$/, ""));
  writeFileSync(path, `import type { ${[...used].join(", ")} } from ${from};\n${lines.join("\n")}\n`);
  const { createGenerator } = await import("ts-json-schema-generator");
  const schema = createGenerator({
    path,
    type: "*",
    expose: "all",
    skipTypeCheck: true,
    additionalProperties: false,
  }).createSchema("*");
  // Aliases of `number` in the declarations; the specification bounds them.
  const bounds = { integer: -(2 ** 31), uinteger: 0 };
  for (const [name, minimum] of Object.entries(bounds))
    if (schema.definitions[name])
      schema.definitions[name] = { type: "integer", minimum, maximum: 2 ** 31 - 1 };
  return { messages, definitions: schema.definitions };
}

/** @returns by method, what is wrong with the params or the result of a message; nothing where all is well */
export async function protocolSchemas() {
  if (!existsSync(KEPT)) {
    const own = `${KEPT}.${process.pid}`;
    writeFileSync(own, JSON.stringify(await made()));
    renameSync(own, KEPT);
  }
  const { messages, definitions } = JSON.parse(readFileSync(KEPT, "utf8"));
  const ajv = new Ajv({ strict: false, allErrors: true, allowUnionTypes: true });
  ajv.addSchema({ $id: "protocol", definitions });
  const wrong = (name) => {
    if (!definitions[name]) return () => [`no schema of ${name}`];
    const validate = ajv.compile({ $ref: `protocol#/definitions/${name}/properties/value` });
    return (value) =>
      validate(value)
        ? []
        : validate.errors.map(
            ({ instancePath, message, params }) => `${instancePath} ${message} ${JSON.stringify(params)}`,
          );
  };
  return new Map(
    messages.map(({ name, params, result }, at) => [
      name,
      {
        params: params === undefined ? undefined : wrong(`P${at}`),
        result: result === undefined ? undefined : wrong(`R${at}`),
      },
    ]),
  );
}
