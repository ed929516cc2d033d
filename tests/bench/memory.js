// Whether what is kept grows: 300 logs opened, typed in, diagnosed and closed and many board files edited, round after
// round. Ends with status 1 where the heap after a clearing grows by more than a little once everything was seen once.
//
//   node --expose-gc tests/bench/memory.js
import { load } from "./sources.js";

const LOGS = 300;
const ROUNDS = 5;
const BOARDS = 7;
/** Megabytes from the first round to the last. */
const MOST = 3;

const { Service, EXAMPLE_BOARD, diagnosisOf } = await load(
  `export { Service } from "./service"; export { EXAMPLE_BOARD } from "./checks/example-board"; export { diagnosisOf } from "./features/shared/diagnosis";`,
  new URL("../../server/src/", import.meta.url),
);

const BOARD = "mem:/x.board.yaml";
const rows = (n) =>
  Array.from({ length: 40 }, (_, i) => `| U14 | ${1 + (i % 14)} | 0.5${n % 10} |\n`).join("");
const log = (n) =>
  `---\nmendlog: 1\njob: J${n}\nboard: example\nsymptoms: [dead]\n---\n\n# Board ${n}\n\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n${rows(n)}`;
const texts = new Map([[BOARD, EXAMPLE_BOARD]]);
for (let n = 0; n < LOGS; n += 1) texts.set(`mem:/${n}.md`, log(n));

const service = new Service({ read: async (uri) => texts.get(uri), list: async () => [...texts.keys()] });
const remember = async () => {
  for await (const _ of service.index());
};
const heap = () => {
  globalThis.gc();
  globalThis.gc();
  return process.memoryUsage().heapUsed / 1e6;
};

await service.load();
await remember();
const start = heap();
const after = [];
for (let round = 0; round < ROUNDS; round += 1) {
  for (let n = 0; n < LOGS; n += 1) {
    const uri = `mem:/${n}.md`;
    service.open(uri, texts.get(uri));
    service.findings(uri);
    service.open(uri, `${texts.get(uri)}\nword ${round}\n`);
    service.findings(uri);
    diagnosisOf(service.view(uri));
    await service.close(uri);
    if (n % 10 === 0) service.open(BOARD, `${EXAMPLE_BOARD}\n# ${round} ${n}\n`);
    const other = `y${n % BOARDS}`;
    service.open(
      `mem:/${other}.board.yaml`,
      `mendlog-board: 1\nid: ${other}\ntitle: ${round} ${n}\nsource: invented\n`,
    );
  }
  for (let n = 0; n < BOARDS; n += 1) await service.close(`mem:/y${n}.board.yaml`);
  await service.close(BOARD);
  await remember();
  after.push(heap());
}
const grown = after.at(-1) - after[0];
console.log(
  `${LOGS} logs, ${ROUNDS} rounds: ${start.toFixed(1)} MB at the start, then ${after.map((mb) => mb.toFixed(1)).join(", ")}; grown by ${grown.toFixed(1)} MB (at most ${MOST})`,
);
if (grown > MOST) process.exitCode = 1;
