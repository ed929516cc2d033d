// How long a person waits for what stands beside the text of a 1,000-line log, after each key: colours whole, as a delta
// and by range, hints of a screenful, lenses, highlights, selections. Over stdio, against one parse of the whole log in
// the same run: node tests/bench/marks.js
import { readFileSync } from "node:fs";
import { parse } from "yaml";
import { bigLog } from "../fixtures/big-log.js";
import { FULL_CAPABILITIES, startClient } from "../protocol/client.js";

const KEYS = 60;
const SCREEN = 50;
const DEMO = new URL("../../demo/", import.meta.url);
const board = parse(readFileSync(new URL("boards/regatta-controller.board.yaml", DEMO), "utf8"));
const text = bigLog({ lines: 1000, board, seed: 5, trouble: 0.05, meter: "bench" });
const lines = text.split("\n");

const client = await startClient({
  folders: [DEMO.href.replace(/\/$/, "")],
  capabilities: {
    ...FULL_CAPABILITIES,
    textDocument: {
      ...FULL_CAPABILITIES.textDocument,
      inlayHint: { resolveSupport: { properties: ["tooltip"] } },
      semanticTokens: { requests: {}, tokenTypes: [], tokenModifiers: [], formats: ["relative"] },
    },
  },
});
const uri = new URL("logs/bench.md", DEMO).href;
const textDocument = { uri };
await client.open(uri, text);
await client.request("textDocument/diagnostic", { textDocument });

const times = new Map();
const timed = async (name, method, params) => {
  const began = performance.now();
  const answer = await client.request(method, { textDocument, ...params });
  const list = times.get(name) ?? [];
  list.push(performance.now() - began);
  times.set(name, list);
  return answer;
};
const rows = lines.flatMap((line, i) => (/^\| U\d+ +\| \d+ +\| 0\.\d/.test(line) ? [i] : []));
let resultId;
for (let key = 0; key < KEYS; key += 1) {
  const line = rows[(key * 37) % rows.length];
  const character = lines[line].indexOf("0.") + 2;
  const at = { line, character };
  const end = { line, character: character + 1 };
  await client.change(uri, key + 2, { range: { start: at, end }, text: String(key % 10) });
  const first = Math.max(0, line - SCREEN / 2);
  const range = { start: { line: first, character: 0 }, end: { line: first + SCREEN, character: 0 } };
  // Asked for alone after the key, each takes the key's own work with it in turn.
  const asks = [
    async () => {
      const name = resultId === undefined ? "colours, whole" : "colours, delta";
      const method = `textDocument/semanticTokens/full${resultId === undefined ? "" : "/delta"}`;
      const answer = await timed(name, method, resultId === undefined ? {} : { previousResultId: resultId });
      ({ resultId } = answer);
    },
    () => timed("colours, range", "textDocument/semanticTokens/range", { range }),
    () => timed("hints", "textDocument/inlayHint", { range }),
    () => timed("lenses", "textDocument/codeLens", {}),
    () => timed("highlights", "textDocument/documentHighlight", { position: at }),
    () => timed("selections", "textDocument/selectionRange", { positions: [at] }),
  ];
  for (let i = 0; i < asks.length; i += 1) await asks[(i + key) % asks.length]();
  if (key % 10 === 0) resultId = undefined;
}
const p95 = (list) => [...list].sort((a, b) => a - b)[Math.ceil(list.length * 0.95) - 1];
const median = (list) => [...list].sort((a, b) => a - b)[list.length >> 1];
console.log(`${lines.length} lines, ${KEYS} keys; milliseconds over stdio`);
for (const [name, list] of times) {
  console.log(
    `  ${name.padEnd(16)} median ${median(list).toFixed(1).padStart(6)}  p95 ${p95(list).toFixed(1).padStart(6)}`,
  );
}
await client.stop();
