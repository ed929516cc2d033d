// The command that writes a shop's jobs as tables for other programs.
import { join } from "node:path";
import { version } from "../../../../package.json";
import { boardAt, boardsOf, type LogView } from "../../features/view";
import { eachBoard, type LogSummary } from "../../log/summary";
import {
  addRows,
  emptyTables,
  type Gathered,
  ndjson,
  rowCount,
  type Tables,
} from "../../report/export/columns";
import { createTables } from "../../report/export/ddl";
import { exportRows, factorRows } from "../../report/export/rows";
import { EXPORT_VERSION } from "../../report/export/schema";
import { terminal, visible } from "../../text/terminal";
import { relativeToCwd } from "../desk";
import { type Content, done, failed, type Io, type Tried } from "../io";
import { progress } from "../progress";
import type { FileProblem } from "../targets";
import { tellOf } from "../tell";
import { outputFolder, writeOutput } from "../write-output";
import { type ShopJobs, shopJobs, tellProblems } from "./jobs";
import type { ExportOptions } from "./options";
import type { ParquetWriter } from "./parquet";

const NO_WRITER =
  "cannot be written as Parquet: the file parquet.cjs is not beside the program. Say --format ndjson, or build Mendlog from its source";

/** Gives the exit status: 0 written, 2 where a file was not, or a log could not be read. */
export async function runExport(options: ExportOptions, io: Io): Promise<number> {
  const told = (path: string, reason: string): number => {
    tellOf(io, path, reason);
    return 2;
  };
  const parquet = options.format === "ndjson" ? undefined : await io.parquet();
  if (options.format !== "ndjson" && !parquet) return told(options.output, NO_WRITER);
  const found = await shopJobs(options.path, io);
  if (!found.ok) return told(options.path, found.reason);
  const shop = options.shop ?? found.value.desk.knowledge().shops[0]?.value.name ?? "";
  const { tables, unread } = await gather(found.value, shop, options, io);
  const complete = tellProblems([...found.value.problems, ...unread], io);
  const folder = await outputFolder(options.output, io);
  if (!folder.ok) return told(options.output, folder.reason);
  for (const [name, content] of filesOf(tables, shop, options, parquet)) {
    const path = join(options.output, name);
    const written = await writeOutput(path, content(), { force: options.force }, io);
    if (!written.ok) return told(path, written.reason);
    io.out.write(terminal`${visible(path)}\n`);
  }
  return complete ? 0 : 2;
}

async function gather(
  { desk, jobs }: ShopJobs,
  shop: string,
  { withOwner }: ExportOptions,
  io: Io,
): Promise<{ readonly tables: Tables; readonly unread: readonly FileProblem[] }> {
  const tables = emptyTables(withOwner);
  addRows(tables, { factors: factorRows() });
  const unread: FileProblem[] = [];
  const units = unitsOf(eachBoard(jobs.map(({ summary }) => summary)));
  const { library } = desk.knowledge();
  const step = progress(io, false);
  let next = 1;
  for (const [at, { file, summary }] of jobs.entries()) {
    const log = await wholeLog(desk, file);
    const of = next;
    const boards = eachBoard([summary]);
    next += boards.length;
    if (log.ok) {
      const { view, findings } = log.value;
      for (const [nth, own] of boards.entries()) {
        const ofBoard = boardsOf(view)[nth] ?? view;
        addRows(
          tables,
          exportRows({
            doc: ofBoard.doc,
            front: ofBoard.front,
            ctx: ofBoard.ctx,
            summary: own,
            findings: findings.filter(({ span }) => boardNumber(view, span.start) === nth),
            board: own.board === undefined ? undefined : desk.boardOf(own.board),
            library,
            shop,
            log: of + nth,
            of,
            unit: units[of + nth - 1]!,
            file: relativeToCwd(io.cwd, file.path),
          }),
        );
      }
    } else unread.push({ path: file.path, message: log.reason });
    step.step(at + 1, jobs.length);
  }
  step.end();
  return { tables, unread };
}

/** Which of the boards that a log is about a finding belongs to, from 0; one of the whole log to the first. */
const boardNumber = (view: LogView, offset: number): number =>
  Math.max(0, boardsOf(view).indexOf(boardAt(view, offset)));

async function wholeLog(
  desk: ShopJobs["desk"],
  file: ShopJobs["jobs"][number]["file"],
): Promise<Tried<NonNullable<Awaited<ReturnType<typeof desk.whole>>>>> {
  const text = await desk.text(file);
  if (!text.ok) return text;
  const log = await desk.whole(file, text.value);
  return log ? done(log) : failed("is no log any more");
}

/** The same number for the same board and serial number; a job without either has one of its own. */
function unitsOf(jobs: readonly LogSummary[]): number[] {
  const known = new Map<string, number>();
  return jobs.map(({ uri, board, serial }, at) => {
    const plain = (text: string | undefined): string => (text ?? "").trim().toLowerCase();
    const own = plain(board) === "" || plain(serial) === "";
    const key = JSON.stringify(own ? [uri, at] : [plain(board), plain(serial)]);
    const unit = known.get(key) ?? known.size + 1;
    known.set(key, unit);
    return unit;
  });
}

/** Names of files, and what makes each when its turn comes: all of them at once would be twice the memory. */
function* filesOf(
  tables: Tables,
  shop: string,
  { format, withOwner }: ExportOptions,
  parquet: ParquetWriter | undefined,
): Generator<readonly [name: string, content: () => Content]> {
  const about = { "mendlog.export": String(EXPORT_VERSION), "mendlog.version": version };
  for (const [name, table] of tables) {
    if (format !== "parquet") yield [`${name}.ndjson`, () => ndjson(table)];
    if (parquet) yield [`${name}.parquet`, () => parquet({ ...table, about })];
  }
  yield ["tables.sql", () => createTables(withOwner)];
  const counts = [...tables].map(([name, table]: readonly [string, Gathered]) => [
    name,
    {
      rows: rowCount(table),
      columns: table.columns.map(({ name: column, type }) => ({ name: column, type })),
    },
  ]);
  const manifest = { format: EXPORT_VERSION, version, shop, withOwner, tables: Object.fromEntries(counts) };
  yield ["export.json", () => `${JSON.stringify(manifest, null, 2)}\n`];
}
