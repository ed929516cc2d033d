// Boards that several tests need, a log of one of them, and what one test's board has besides.

/** The lines that every board file begins with. */
export const boardHead = (id = "b", title = id.toUpperCase()): string =>
  `mendlog-board: 1\nid: ${id}\ntitle: ${title}\nsource: invented\n`;

/** Three chips and a header on one bus, two of the chips in sockets. */
export const BUS_BOARD = `${boardHead()}grounds: [GND]
rails: { "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC, source: invented } }
parts:
  U12: { device: 74LS04, socketed: true }
  U13: { device: 74LS04, socketed: true }
  U14: { device: 74LS04 }
  J3: { value: header 10 }
nets:
  GND: [U12.7, U13.7, U14.7]
  VCC: [U12.14, U13.14, U14.14]
  BUS: [U14.1, U12.1, U13.1, J3.1]
`;

type Entries = Readonly<Record<string, string>>;

/** The board with these parts and nets, each as its entry is written; one that is there already is replaced. */
export function having(
  board: string,
  { parts = {}, nets = {} }: { readonly parts?: Entries; readonly nets?: Entries },
): string {
  let text = board;
  for (const [name, entry] of Object.entries(parts)) text = withEntry(text, "parts", name, entry);
  for (const [name, entry] of Object.entries(nets)) text = withEntry(text, "nets", name, entry);
  return text;
}

function withEntry(board: string, section: string, name: string, entry: string): string {
  const line = `  ${name}: ${entry}`;
  const lines = board.split("\n");
  const head = lines.indexOf(`${section}:`);
  if (head < 0) throw new Error(`the board has no ${section}`);
  const length = lines.slice(head + 1).findIndex((each) => !each.startsWith("  "));
  const there = lines.findIndex(
    (each, at) => at > head && at <= head + length && each.startsWith(`  ${name}:`),
  );
  if (there >= 0) lines[there] = line;
  else lines.splice(head + 1 + length, 0, line);
  return lines.join("\n");
}

/** A board's file as the first of a fixture. */
export const boardFile = (board: string): string => `//- ${idOf(board)}.board.yaml\n${board}`;

/** A fixture of the board's file and one log of that board, with more lines of front matter. */
export const logOf = (board: string, body: string, front = ""): string =>
  `${boardFile(board)}//- log.md\n---\nmendlog: 1\nboard: ${idOf(board)}\n${front}---\n\n${body}`;

function idOf(board: string): string {
  const id = /^id: (.+)$/m.exec(board)?.[1];
  if (id === undefined) throw new Error("the board has no id");
  return id;
}
