// The two engines that the questions run on, each with an export loaded: DuckDB over the Parquet files, PostgreSQL with the
// lines of JSON. Where one is missing its tests say so; MENDLOG_REQUIRE_OUTSIDE=1 makes that a failure.
import { spawnSync } from "node:child_process";
import { chownSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { EXPORT_TABLES, TABLE_NAMES } from "../../server/src/report/export/schema";

export type Value = string | number | boolean | null;
export type Answer = readonly Readonly<Record<string, Value>>[];

export interface Engine {
  /** Runs a question as it stands. */
  ask(sql: string): Promise<Answer>;
  stop(): Promise<void>;
}

/** Throws where the package is not there for this machine. */
export async function duckdb(folders: readonly string[]): Promise<Engine> {
  const { DuckDBInstance } = await import("@duckdb/node-api");
  const instance = await DuckDBInstance.create(":memory:");
  const connection = await instance.connect();
  for (const table of TABLE_NAMES) {
    const paths = folders.map((folder) => `'${join(folder, `${table}.parquet`)}'`).join(", ");
    await connection.run(`CREATE VIEW ${table} AS SELECT * FROM read_parquet([${paths}])`);
  }
  return {
    async ask(sql) {
      const reader = await connection.runAndReadAll(sql);
      return reader
        .getRowObjectsJS()
        .map((row) =>
          Object.fromEntries(
            Object.entries(row).map(([name, value]): [string, Value] => [
              name,
              typeof value === "bigint" ? Number(value) : (value as Value),
            ]),
          ),
        );
    },
    async stop() {
      connection.closeSync();
      instance.closeSync();
    },
  };
}

const DEBIAN = "/usr/lib/postgresql";

/** The folder of the server's programs; undefined where it is not installed. */
export function postgresPrograms(): string | undefined {
  if (!existsSync(DEBIAN)) return undefined;
  const [latest] = readdirSync(DEBIAN).sort((a, b) => Number(b) - Number(a));
  const programs = latest && join(DEBIAN, latest, "bin");
  return programs && existsSync(join(programs, "initdb")) ? programs : undefined;
}

/** The server refuses to run as root. "nobody" has this number on Debian. */
const NOBODY = 65_534;

/** A server of one's own that listens on a socket in a folder alone, with an export in it. */
export function postgres(programs: string, folder: string, exports: readonly string[]): Engine {
  const root = process.getuid?.() === 0;
  const who = root ? { uid: NOBODY, gid: NOBODY } : {};
  const home = join(folder, "pg");
  mkdirSync(home);
  if (root) {
    chownSync(folder, NOBODY, NOBODY);
    chownSync(home, NOBODY, NOBODY);
  }
  const run = (name: string, args: readonly string[], input?: string): string => {
    const ran = spawnSync(join(programs, name), args, {
      ...who,
      ...(input === undefined ? {} : { input }),
      cwd: home,
      encoding: "utf8",
      env: { PATH: process.env.PATH ?? "", LC_ALL: "C.UTF-8", PGTZ: "UTC" },
      maxBuffer: 1 << 28,
    });
    if (ran.status !== 0) throw new Error(`${name}: ${ran.stderr}\n${ran.stdout}`);
    return ran.stdout;
  };
  const data = join(home, "data");
  run("initdb", ["-D", data, "-A", "trust", "-U", "bench", "-E", "UTF8", "--locale=C", "--no-sync"]);
  const settings = `-c listen_addresses= -c unix_socket_directories=${home} -c fsync=off -c autovacuum=off`;
  run("pg_ctl", ["-D", data, "-w", "-s", "-l", join(home, "log"), "-o", settings, "start"]);
  const psql = (args: readonly string[], input?: string): string =>
    run(
      "psql",
      ["-X", "-q", "-v", "ON_ERROR_STOP=1", "-h", home, "-U", "bench", "-d", "postgres", ...args],
      input,
    );
  const file = (name: string, text: string): string => {
    const path = join(home, name);
    writeFileSync(path, text);
    return path;
  };
  try {
    psql(["-f", file("tables.sql", readFileSync(join(exports[0]!, "tables.sql"), "utf8"))]);
    for (const table of TABLE_NAMES) {
      // A line of JSON holds neither of these two signs, so each is one cell of one column.
      const load = exports.map((folder) => {
        const lines = file(`${table}.ndjson`, readFileSync(join(folder, `${table}.ndjson`), "utf8"));
        return `CREATE TEMP TABLE line (row_text json);
\\copy line FROM '${lines}' WITH (FORMAT csv, QUOTE E'\\x01', DELIMITER E'\\x02')
INSERT INTO ${table} SELECT r.* FROM line, json_populate_record(NULL::${table}, row_text) AS r;
DROP TABLE line;`;
      });
      for (const [at, script] of load.entries()) psql(["-f", file(`${table}-${at}.sql`, script)]);
    }
    psql(["-c", "ANALYZE"]);
  } catch (error) {
    stop();
    throw error;
  }
  function stop(): void {
    run("pg_ctl", ["-D", data, "-w", "-s", "-m", "immediate", "stop"]);
  }
  return {
    ask: async (sql) => readCsv(psql(["--csv", "-P", "null=\\N", "-f", file("question.sql", sql)])),
    stop: async () => stop(),
  };
}

/** RFC 4180 with a header; what looks like a number is one, unless it is a column of text. */
function readCsv(csv: string): Answer {
  const rows: string[][] = [[]];
  for (const [, quoted, plain, end] of csv.matchAll(/(?:"((?:[^"]|"")*)"|([^",\n]*))(,|\n)/g)) {
    rows.at(-1)!.push(quoted === undefined ? (plain ?? "") : quoted.replaceAll('""', '"'));
    if (end === "\n") rows.push([]);
  }
  const [header = [], ...body] = rows.slice(0, -1);
  return body.map((cells) =>
    Object.fromEntries(header.map((name, at): [string, Value] => [name, typedCell(name, cells[at] ?? "")])),
  );
}

const TEXTS = new Set(
  TABLE_NAMES.flatMap((table) =>
    EXPORT_TABLES[table].columns.filter(({ type }) => type === "text").map(({ name }) => name as string),
  ),
);

function typedCell(name: string, cell: string): Value {
  if (cell === "\\N") return null;
  if (cell === "t" || cell === "f") return cell === "t";
  return TEXTS.has(name) || Number.isNaN(Number(cell)) ? cell : Number(cell);
}
