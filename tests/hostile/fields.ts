// Files of every kind in which every text that the format leaves to the writer is hostile. The fields come from the JSON Schemas, so
// that a field added there is in these files without a word here; what a schema narrows down (a quantity, a name of something
// else) gets what it asks for, and now and then the hostile text all the same.
import { readFileSync } from "node:fs";
import { stringify } from "yaml";

type Schema = Readonly<Record<string, never>> & {
  readonly type?: string | readonly string[];
  readonly const?: unknown;
  readonly enum?: readonly string[];
  readonly pattern?: string;
  readonly format?: string;
  readonly minimum?: number;
  readonly minItems?: number;
  readonly quantity?: string | readonly string[];
  readonly refersTo?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: false | Schema;
  readonly items?: Schema;
};

const schemaOf = (kind: string): Schema =>
  JSON.parse(readFileSync(new URL(`../../schemas/${kind}.schema.json`, import.meta.url), "utf8"));

/** Each does something somewhere, and has a word of its own by which it is found again. */
export const PIECES = [
  "<img src=x onerror=EVILTAG>",
  "![EVILIMG](http://evil.example/x.png)",
  "[EVILLINK](command:evil)",
  "`EVILCODE`",
  "**EVILBOLD**",
  "| EVILPIPE |",
  "\n# EVILHEAD",
  "\u001b[31mEVILESC",
  "\u0007\u009bEVILBELL",
  "\u202eEVILBACK",
  "http://evil.example/EVILURL",
  "<script>EVILSCRIPT</script>",
  '" onload="EVILATTR',
] as const;

/** Read by a spreadsheet as a formula. */
export const FORMULA = "=cmd|' /C calc'!A0";

/** Numbers from 0 to 1, the same for the same seed (mulberry32, public domain, from memory). */
export function random(seed: number): () => number {
  let at = seed >>> 0;
  return () => {
    at = (at + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(at ^ (at >>> 15), at | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

const pick = <T>(of: readonly T[], next: () => number): T => of[Math.floor(next() * of.length)]!;

/** One or two of the pieces, with words before them as people write. */
export const hostile = (next: () => number): string =>
  `${next() < 0.3 ? FORMULA : pick(["", "old ", "x"], next)}${pick(PIECES, next)} ${pick(PIECES, next)}`;

const QUANTITIES: Readonly<Record<string, string>> = {
  voltage: "5 V",
  current: "1 A",
  frequency: "1 MHz",
  ratio: "5 %",
  resistance: "4k7",
  any: "5 V",
};

/** What is named elsewhere in the same files. */
const NAMED: Readonly<Record<string, string>> = {
  parts: "U1",
  pin: "U1.1",
  pins: "1",
  nets: "N1",
  rails: "+5V",
  circuits: "c1",
  matrices: "m1",
  modifications: "mod1",
  revisions: "B",
  device: "7404",
  family: "TTL",
  procedure: "diode-check",
  "board-file": "evil",
  "board-revisions": "B",
  "board-rom-sets": "r1",
  "board-symptoms": "s1",
  "shop-meters": "bench",
  job: "2025-001",
};
/** Keys that entries of the writer's own naming have, so that they can be named from elsewhere. */
const KEYS: Readonly<Record<string, string>> = {
  parts: "U1",
  nets: "N1",
  rails: "+5V",
  circuits: "c1",
  matrices: "m1",
  modifications: "mod1",
  revisions: "B",
  "rom-sets": "r1",
  symptoms: "s1",
  meters: "bench",
  pins: "1",
};
const FORMS = [
  "0.25",
  "EUR",
  "2026-03-02",
  "1",
  "19 %",
  "abc",
  "a",
  "00",
  "A",
  "U1",
  "1f",
  "cafe1234",
  "1 x | 1",
];

/** Most patterns only want something there, or no blank around it. */
const takesAnything = ({ pattern }: Schema): boolean =>
  pattern === undefined || PIECES.some((piece) => new RegExp(pattern, "u").test(`${piece} ${piece}`));

/** A value that the schema's kind of place takes; `strict` keeps to what it asks for. */
function valueFor(schema: Schema, path: readonly string[], next: () => number, strict: boolean): unknown {
  const types = [schema.type ?? []].flat();
  const free = (): string => hostile(next);
  if (schema.const !== undefined) return schema.const;
  if (types.includes("object")) return mapOf(schema, path, next, strict);
  if (types.includes("array"))
    return Array.from({ length: Math.max(schema.minItems ?? 1, 1) }, () =>
      valueFor(schema.items ?? {}, [...path, "*"], next, strict),
    );
  if (types.includes("boolean")) return true;
  if (!types.includes("string")) return schema.minimum ?? 1;
  const asked =
    schema.enum?.[0] ??
    (schema.refersTo === undefined ? undefined : NAMED[schema.refersTo]) ??
    (schema.quantity === undefined ? undefined : QUANTITIES[[schema.quantity].flat()[0]!]) ??
    (schema.format === "date" ? "2026-03-02" : undefined) ??
    (takesAnything(schema)
      ? undefined
      : FORMS.find((form) => new RegExp(schema.pattern ?? "", "u").test(form)));
  if (asked === undefined) return free();
  return strict || next() < 0.9 ? asked : free();
}

function mapOf(schema: Schema, path: readonly string[], next: () => number, strict: boolean): object {
  const out: Record<string, unknown> = {};
  for (const [key, sub] of Object.entries(schema.properties ?? {}))
    out[key] = valueFor(sub, [...path, key], next, strict);
  const own = schema.additionalProperties;
  if (own) {
    const key = KEYS[path.at(-1) ?? ""] ?? "k1";
    out[key] = valueFor(own, [...path, "*"], next, strict);
    if (!strict) out[hostile(next)] = valueFor(own, [...path, "*"], next, strict);
  }
  return out;
}

/** Every path of a text that a schema leaves to the writer; to be counted, so that none is lost on the way. */
export function freeFields(kind: string): string[] {
  const walk = (schema: Schema, path: string): string[] => {
    const types = [schema.type ?? []].flat();
    const below = [
      ...Object.entries(schema.properties ?? {}).flatMap(([key, sub]) => walk(sub, `${path}/${key}`)),
      ...(schema.additionalProperties ? walk(schema.additionalProperties, `${path}/*`) : []),
      ...(schema.items ? walk(schema.items, `${path}/*`) : []),
    ];
    const narrowed = schema.enum ?? schema.refersTo ?? schema.quantity ?? schema.format;
    return types.includes("string") && narrowed === undefined && takesAnything(schema)
      ? [path, ...below]
      : below;
  };
  return walk(schemaOf(kind), "");
}

const yaml = (value: object): string => stringify(value, { lineWidth: 0 });

const BOARD_ID = "evil";

/** The files of one shop, by path. @param strict keeps narrowed fields as they should be, so that the files are used whole */
export function hostileFiles(seed: number, strict: boolean): ReadonlyMap<string, string> {
  const next = random(seed);
  const make = (kind: string, fixed: object): string =>
    yaml({ ...(valueFor(schemaOf(kind), [], next, strict) as object), ...fixed });
  const files = new Map<string, string>();
  const front = (job: string) => {
    const whole = valueFor(schemaOf("front-matter"), [], next, strict) as Record<string, unknown>;
    delete whole.boards;
    return yaml({
      ...whole,
      job,
      board: BOARD_ID,
      stage: "returned",
      ...(job === "2025-001" ? { "comeback-of": "2024-001" } : {}),
    });
  };
  const cell = (): string =>
    hostile(next)
      .replace(/[\r\n]+/g, " ")
      .replaceAll("|", "\\|")
      .replaceAll("EVILIMG", "CELLIMG");
  // Words of a log are Markdown of the writer's own, whose marks the report reads: none of them has to be there again.
  const line = (): string =>
    hostile(next)
      .replace(/[\r\n]+/g, " ")
      .replaceAll("EVIL", "PROSE");
  const table = (heading: string, headers: readonly string[], rows: readonly (readonly string[])[]): string =>
    [
      `## ${heading}`,
      "",
      `| ${headers.join(" | ")} |`,
      `|${headers.map(() => "---").join("|")}|`,
      ...rows.map((cells) => `| ${cells.join(" | ")} |`),
      "",
    ].join("\n");
  const body = (): string =>
    [
      `# ${line()}`,
      "",
      `${line()} U1 pin 1 and ${line()}`,
      "",
      table(
        "Diode check",
        ["Ref", "Pin", "Reading", "Note"],
        [
          ["U1", "1", "1.42", cell()],
          ["U1", "2", "0.58", cell()],
          [cell(), "3", "0.5", cell()],
          ["U1", cell(), cell(), ""],
        ],
      ),
      table(
        "Supply rails",
        ["Rail", "DC", "Note"],
        [
          ["+5V", "3.1", cell()],
          [cell(), "5", cell()],
        ],
      ),
      table("Inspection", ["Item", "Result", "Note"], [[cell(), "burnt", cell()]]),
      table(
        "Switch matrix",
        ["Switch", "Result", "Note"],
        [
          [cell(), "dead", cell()],
          ["1,1", cell(), ""],
        ],
      ),
      table(
        "Work done",
        ["Ref", "Action", "Part", "Note"],
        [
          ["U1", "replaced", cell(), cell()],
          [cell(), cell(), cell(), cell()],
        ],
      ),
      table("Parts fitted", ["Part", "Ref", "Note"], [[cell(), "U1", cell()]]),
      table("Proving", ["Item", "Result", "Note"], [[cell(), "ok", cell()]]),
      table("ROM check", ["Ref", "CRC-32", "Image"], [["U1", "cafe1234", cell()]]),
      table("Evil test", ["Ref", "Pin", "Reading"], [["U1", "1", cell()]]),
      table(line(), [cell(), cell()], [[cell(), cell()]]),
      `![${line()}](photos/a.png)`,
      "",
      "## Notes for the owner",
      "",
      line(),
      "",
    ].join("\n");
  files.set("evil.board.yaml", make("board", { id: BOARD_ID }));
  files.set("own.device.yaml", make("device", { id: "EVIL1" }));
  files.set("own.procedure.yaml", make("procedure", { id: "evil-test", aliases: ["Evil test"] }));
  files.set(
    "mendlog.shop.yaml",
    make("shop", strict ? { "limits-from": "pool.limits.yaml", checks: {} } : { checks: {} }),
  );
  files.set("pool.limits.yaml", make("limits", {}));
  files.set("logs/2026-001.md", `---\n${front("2026-001")}---\n\n${body()}`);
  files.set("logs/2025-001.md", `---\n${front("2025-001")}---\n\n${body()}`);
  return files;
}
