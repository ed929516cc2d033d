// What it costs to open a file and to say what is wrong with it.
import { Service } from "../../server/src/service";
import { cpuTime } from "../support/cpu-time";
import { MARKDOWN, type Structure, TABLES, YAML } from "./structures";

interface Group {
  readonly structures: Readonly<Record<string, Structure>>;
  file(text: string): { readonly uri: string; readonly text: string };
}

const log = (text: string) => ({ uri: "mem:/ws/log.md", text });
const board = (text: string) => ({ uri: "mem:/ws/a.board.yaml", text: `mendlog-board: 1\nid: a\n${text}` });

export const GROUPS = {
  markdown: {
    structures: MARKDOWN,
    file: (text) => log(`---\nmendlog: 1\nboard: example\n---\n\n# A\n\n${text}`),
  },
  tables: { structures: TABLES, file: (text) => log(`---\nmendlog: 1\nboard: example\n---\n\n${text}`) },
  "front matter": { structures: YAML, file: (text) => log(`---\nmendlog: 1\n${text}\n---\n\n# A\n`) },
  "board file": { structures: YAML, file: board },
  nets: { structures: YAML, file: (text) => board(`nets:\n${text.replace(/^/gm, "  ")}`) },
} satisfies Record<string, Group>;

/** Characters; the larger is four times the smaller, so that a square is told from noise. */
export const SIZES = [8_000, 32_000] as const;

/** Milliseconds of the processor for one file in a workspace of its own. */
export async function costOf(uri: string, text: string): Promise<number> {
  const service = new Service({
    read: async () => undefined,
    list: async () => [],
    readBytes: async () => ({ ok: false, reason: "absent" }),
  });
  await service.load();
  return cpuTime(() => {
    service.open(uri, text);
    return service.findings(uri);
  });
}
