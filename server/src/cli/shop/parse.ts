// The options of the commands that look at all of a shop's jobs. Wrong ones are thrown; see `parseCommand`.
import { parseArgs } from "node:util";
import { defined } from "../../base/defined";
import { oneOf, read, Wrong } from "../read-options";
import {
  EXPORT_FORMATS,
  type ExportOptions,
  type PoolOptions,
  STATS_FORMATS,
  type StatsOptions,
} from "./options";

export const SHOP_COMMANDS = ["export", "stats", "pool"] as const;
export type ShopCommand = (typeof SHOP_COMMANDS)[number];

export type ParsedShop =
  | { readonly kind: "help"; readonly of: ShopCommand }
  | { readonly kind: "export"; readonly options: ExportOptions }
  | { readonly kind: "stats"; readonly options: StatsOptions }
  | { readonly kind: "pool"; readonly options: PoolOptions };

/**
 * The words behind one of these commands.
 * @throws Wrong where an option is none
 */
export const parseShop = (command: ShopCommand, args: readonly string[]): ParsedShop => PARSE[command](args);

function parseExport(args: readonly string[]): ParsedShop {
  const options = {
    output: { type: "string", short: "o" },
    format: { type: "string", default: "all" },
    shop: { type: "string" },
    "with-owner": { type: "boolean" },
    force: { type: "boolean" },
    help: { type: "boolean", short: "h" },
  } as const;
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], options, allowPositionals: true, strict: true }),
  );
  if (values.help) return { kind: "help", of: "export" };
  if (values.output === undefined) throw new Wrong("Say where to: --output OUTDIR, a folder for the files.");
  if (positionals.includes("") || values.output === "") throw new Wrong("A path is empty.");
  if (values.shop?.trim() === "") throw new Wrong("--shop takes the shop's name.");
  return {
    kind: "export",
    options: defined({
      command: "export",
      path: onlyFolder(positionals, "An export"),
      output: values.output,
      format: oneOf("--format", values.format, EXPORT_FORMATS),
      withOwner: values["with-owner"] ?? false,
      shop: values.shop?.trim(),
      force: values.force ?? false,
    }),
  };
}

function parseStats(args: readonly string[]): ParsedShop {
  const options = {
    output: { type: "string", short: "o" },
    format: { type: "string" },
    force: { type: "boolean" },
    help: { type: "boolean", short: "h" },
  } as const;
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], options, allowPositionals: true, strict: true }),
  );
  if (values.help) return { kind: "help", of: "stats" };
  if (positionals.includes("") || values.output === "") throw new Wrong("A path is empty.");
  if (values.force && values.output === undefined) throw new Wrong("--force is for --output only.");
  const ending = /\.(html|json)$/i.exec(values.output ?? "")?.[1]?.toLowerCase();
  return {
    kind: "stats",
    options: defined({
      command: "stats",
      path: onlyFolder(positionals, "The shop's numbers"),
      format: oneOf("--format", values.format ?? ending ?? "html", STATS_FORMATS),
      output: values.output,
      force: values.force ?? false,
    }),
  };
}

function parsePool(args: readonly string[]): ParsedShop {
  const options = {
    output: { type: "string", short: "o" },
    force: { type: "boolean" },
    help: { type: "boolean", short: "h" },
  } as const;
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], options, allowPositionals: true, strict: true }),
  );
  if (values.help) return { kind: "help", of: "pool" };
  if (positionals.length === 0) throw new Wrong("Name the folders that mendlog export wrote.");
  if (positionals.includes("") || values.output === "") throw new Wrong("A path is empty.");
  if (values.force && values.output === undefined) throw new Wrong("--force is for --output only.");
  if (values.output !== undefined && !/[^/\\]\.limits\.yaml$/.test(values.output))
    throw new Wrong(`--output takes a name that ends in .limits.yaml, not "${values.output}".`);
  return {
    kind: "pool",
    options: defined({
      command: "pool",
      paths: positionals,
      output: values.output,
      force: values.force ?? false,
    }),
  };
}

const PARSE: Readonly<Record<ShopCommand, (args: readonly string[]) => ParsedShop>> = {
  export: parseExport,
  stats: parseStats,
  pool: parsePool,
};

function onlyFolder([path = ".", ...more]: readonly string[], what: string): string {
  if (more.length > 0) throw new Wrong(`${what} is of one folder, not of ${more.length + 1}.`);
  return path;
}
