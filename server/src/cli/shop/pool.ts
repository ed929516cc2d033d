// The command that makes limits from several shops' exports.
import { join, resolve } from "node:path";
import { EXPORT_VERSION, type ExportRow } from "../../report/export/schema";
import { pooledLimits, type ShopExport } from "../../report/pool/limits";
import { pooledYaml } from "../../report/pool/yaml";
import { terminal, visible, visibleFile } from "../../text/terminal";
import { failed, type Io, type Tried } from "../io";
import { decode } from "../read-text";
import { tell, tellOf } from "../tell";
import { writeOutput } from "../write-output";
import type { PoolOptions } from "./options";

/** Bytes of the largest file that is read: what a hundred thousand logs come to. */
const MOST_BYTES = 1 << 29;

/** Version 1 had one row for a log about several boards, without a board and so without a place: what it has counts alike. */
const OLDEST_READ = 1;

/**
 * Gives the exit status: 0 written, also where there were no limits to write; 2 where an export was refused or the file
 * was not written.
 */
export async function runPool({ paths, output, force }: PoolOptions, io: Io): Promise<number> {
  const told = (path: string, reason: string): number => {
    tellOf(io, path, reason);
    return 2;
  };
  const exports = new Map<string, ShopExport>();
  for (const path of paths) {
    const read = await readExport(path, io);
    if (!read.ok) return told(read.path, read.reason);
    const { shop } = read.value;
    const before = exports.get(shop);
    if (before)
      return told(
        path,
        `is an export of "${shop}" as another one is, and its boards would count twice. Export one of them again with --shop`,
      );
    exports.set(shop, read.value);
  }
  const rows = pooledLimits([...exports.values()]);
  const text = pooledYaml(rows, [...exports.keys()], io.today());
  if (output === undefined) io.out.write(visibleFile(text));
  else {
    const written = await writeOutput(output, text, { force, own: "limits" }, io);
    if (!written.ok) return told(output, written.reason);
    io.out.write(terminal`${visible(output)}\n`);
  }
  if (rows.length === 0) tell(io, "no place was read on five boards that agree, so there are no limits.");
  return 0;
}

type Read =
  | { readonly ok: true; readonly value: ShopExport }
  | { readonly ok: false; readonly path: string; readonly reason: string };

async function readExport(folder: string, io: Io): Promise<Read> {
  const about = join(folder, "export.json");
  const manifest = await textOf(about, io);
  if (!manifest.ok)
    return { ok: false, path: about, reason: `${manifest.reason}: name a folder that mendlog export wrote` };
  const { format, shop } = objectOf(manifest.value) ?? {};
  if (typeof format !== "number" || format < OLDEST_READ || format > EXPORT_VERSION)
    return {
      ok: false,
      path: about,
      reason: `is of version ${String(format)} of the schema, and this program reads versions ${OLDEST_READ} to ${EXPORT_VERSION}`,
    };
  const jobs = await linesOf<ExportRow<"jobs">>(join(folder, "jobs.ndjson"), ["log_no", "unit"], io);
  if (!jobs.ok) return jobs;
  const places = await linesOf<ExportRow<"places">>(
    join(folder, "places.ndjson"),
    ["log_no", "resolution"],
    io,
  );
  if (!places.ok) return places;
  const name = typeof shop === "string" && shop !== "" ? shop : folder;
  return { ok: true, value: { shop: name, jobs: jobs.value, places: places.value } };
}

/** @param numbers columns that must hold numbers, by which a line that is none of the table is told */
async function linesOf<T>(
  path: string,
  numbers: readonly string[],
  io: Io,
): Promise<
  | { readonly ok: true; readonly value: T[] }
  | { readonly ok: false; readonly path: string; readonly reason: string }
> {
  const text = await textOf(path, io);
  if (!text.ok) return { ok: false, path, reason: `${text.reason}: export it again with --format ndjson` };
  const rows: T[] = [];
  for (const [at, line] of text.value.split("\n").entries()) {
    if (line.trim() === "") continue;
    const row = objectOf(line);
    if (!row || numbers.some((name) => typeof row[name] !== "number"))
      return { ok: false, path, reason: `cannot be read: line ${at + 1} is no row of this table` };
    rows.push(row as T);
  }
  return { ok: true, value: rows };
}

async function textOf(path: string, { disk, cwd }: Io): Promise<Tried<string>> {
  const target = resolve(cwd, path);
  const look = await disk.look(target);
  if (!look.ok) return look;
  if (look.value.kind !== "file") return failed("is not a file");
  if (look.value.size > MOST_BYTES) return failed("is too large to be read");
  const bytes = await disk.read(target, MOST_BYTES);
  return bytes.ok ? decode(bytes.value) : bytes;
}

function objectOf(text: string): Readonly<Record<string, unknown>> | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === "object" && value !== null ? (value as Record<string, unknown>) : undefined;
  } catch {
    return undefined;
  }
}
