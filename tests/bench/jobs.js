// What the list of jobs costs in a workspace of 500 small logs: first, when every log is read, and again after each of
// some edits, as a ratio to one parse of a log of 1,000 lines by the Markdown parser in the same run.
//
//   node tests/bench/jobs.js [logs]
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import remarkFrontmatter from "remark-frontmatter";
import remarkGfm from "remark-gfm";
import remarkParse from "remark-parse";
import { unified } from "unified";
import { FULL_CAPABILITIES, startClient } from "../protocol/client.js";

const LOGS = Number(process.argv[2] ?? 500);
const EDITS = 40;
const TIME = { today: "2026-03-20", oldAfterDays: 28 };
const ROW = "| U14 | 1 | 0.58 |\n";
const log = (n, rows) =>
  `---\nmendlog: 1\njob: 2026-${n}\nboard: regatta-controller\nreceived: 2026-02-01\nstage: ${n % 3 ? "returned" : "diagnosing"}\n---\n\n# Job ${n}\n\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n${ROW.repeat(rows)}`;

const folder = mkdtempSync(join(tmpdir(), "mendlog-jobs-"));
mkdirSync(join(folder, "logs"));
cpSync(fileURLToPath(new URL("../../demo/boards", import.meta.url)), join(folder, "boards"), {
  recursive: true,
});
for (let n = 1; n <= LOGS; n += 1) writeFileSync(join(folder, `logs/${n}.md`), log(n, 8));

const parser = unified().use(remarkParse).use(remarkFrontmatter).use(remarkGfm);
const big = log(1, 985);
const timed = async (run) => {
  const began = performance.now();
  await run();
  return performance.now() - began;
};
const sorted = (list) => [...list].sort((a, b) => a - b);
const parses = [];
for (let i = 0; i < 7; i += 1) parses.push(await timed(() => parser.parse(big)));
const parse = sorted(parses)[3];

const client = await startClient({ folders: [pathToFileURL(folder).href], capabilities: FULL_CAPABILITIES });
try {
  const ask = () => client.request("mendlog/jobs", TIME);
  const first = await timed(ask);
  const { jobs } = await ask();
  if (jobs.length !== LOGS) throw new Error(`${jobs.length} jobs listed, not ${LOGS}`);
  const uri = pathToFileURL(join(folder, "logs/3.md")).href;
  await client.open(uri, log(3, 8));
  const again = [];
  for (let i = 0; i < EDITS; i += 1) {
    await client.change(uri, i + 2, { text: log(3, 8 + (i % 2)) });
    again.push(await timed(ask));
  }
  const p95 = sorted(again)[Math.floor(0.95 * EDITS)];
  const ratio = (time) => `${(time / parse).toFixed(2)} parses (${time.toFixed(1)} ms)`;
  console.log(`${LOGS} logs; one parse of 1,000 lines ${parse.toFixed(1)} ms`);
  console.log(`the jobs, first: ${ratio(first)}`);
  console.log(`the jobs after an edit, p95 of ${EDITS}: ${ratio(p95)}`);
  process.exitCode = p95 < parse ? 0 : 1;
} finally {
  client.kill();
  rmSync(folder, { recursive: true, force: true });
}
