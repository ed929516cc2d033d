// The page for other editors: what it says to paste is well-formed and starts the server, for both languages. No editor but
// Neovim is run here (tests/editor/scenarios); the languages' own parsers are.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { parse as parseLua } from "luaparse";
import { parse as parseToml } from "smol-toml";
import { describe, expect, test } from "vitest";
import { CHECKS } from "../../server/src/checks/registry";
import { COMMANDS } from "../../server/src/protocol/command-names";

const page = readFileSync(join(import.meta.dirname, "../../docs/other-editors.md"), "utf8");
const START = ["mendlog", "serve", "--stdio"];
const LANGUAGES = ["markdown", "yaml"];

interface Block {
  readonly under: string;
  readonly language: string;
  readonly text: string;
}

const blocks: readonly Block[] = page.split(/^## /m).flatMap((section) =>
  [...section.matchAll(/^```(\w+)\n([\s\S]*?)^```$/gm)].map(([, language, text]) => ({
    under: section.slice(0, section.indexOf("\n")),
    language: language!,
    text: text!,
  })),
);
const under = (heading: string, language: string): readonly string[] =>
  blocks.filter((one) => one.under === heading && one.language === language).map(({ text }) => text);

/** Strings anywhere in what a parser made, in the order they stand in. */
function stringsIn(value: unknown): string[] {
  if (typeof value === "string") return [value];
  if (typeof value !== "object" || value === null) return [];
  return Object.values(value).flatMap(stringsIn);
}

/** What a list of Lisp holds, in lists; throws where a bracket or a quote is left open or closes nothing. */
function parseLisp(text: string): unknown[] {
  const open: unknown[][] = [[]];
  for (const [token] of text.matchAll(/;.*|"(?:\\.|[^"\\])*"|"[\s\S]*|[()]|[^\s()"';]+/g)) {
    if (token === "(") open.push([]);
    else if (token === ")") {
      const closed = open.pop();
      if (open.length === 0) throw new Error("a bracket closes nothing");
      open.at(-1)?.push(closed);
    } else if (token.startsWith('"')) open.at(-1)?.push(JSON.parse(token));
    else if (!token.startsWith(";")) open.at(-1)?.push(token);
  }
  if (open.length > 1) throw new Error("a bracket is left open");
  return open[0]!;
}

const PARSERS: Readonly<Record<string, (text: string) => unknown>> = {
  json: JSON.parse,
  toml: parseToml,
  lua: (text) => parseLua(text, { luaVersion: "5.1" }),
  elisp: parseLisp,
};

test.each(blocks.map((one) => [`${one.under}: ${one.language}`, one] as const))(
  "%s is well-formed",
  (_, { language, text }) => {
    if (language === "yaml") return expect(text).toMatch(/^# yaml-language-server: \$schema=\S+\.json\n/);
    expect(() => PARSERS[language]?.(text)).not.toThrow();
    expect(PARSERS[language]?.(text)).toBeTruthy();
    // A parser that takes anything would hold nothing.
    return expect(() => PARSERS[language]?.(`${text}\n("`)).toThrow();
  },
);

describe("each starts the server for both languages", () => {
  test.each([0, 1])("Neovim, the set-up at %i", (at) => {
    const lua = under("Neovim", "lua")[at]!;
    const strings = [...lua.matchAll(/"([^"]*)"/g)].map(([, text]) => text);
    expect(strings).toEqual(expect.arrayContaining([...START, ...LANGUAGES]));
  });

  test("Helix", () => {
    const [toml] = under("Helix", "toml");
    const { "language-server": servers, language } = parseToml(toml!) as unknown as {
      "language-server": Record<string, { command: string; args: string[] }>;
      language: { name: string; "language-servers": string[] }[];
    };
    const { command, args } = servers.mendlog!;
    expect([command, ...args]).toEqual(START);
    expect(language.map(({ name }) => name)).toEqual(LANGUAGES);
    // A server named for a language that the editor knows already takes the place of those it has.
    for (const { "language-servers": named } of language) expect(named).toContain("mendlog");
  });

  test("Emacs", () => {
    const strings = stringsIn(parseLisp(under("Emacs", "elisp")[0]!));
    expect(strings.join(" ")).toContain(START.join(" "));
    for (const mode of ["markdown-mode", "yaml-mode", "yaml-ts-mode"])
      expect(strings).toEqual(expect.arrayContaining([mode, `${mode}-hook`]));
  });

  test("Sublime Text", () => {
    const { clients } = JSON.parse(under("Sublime Text", "json")[0]!);
    expect(clients.mendlog.command).toEqual(START);
    for (const language of LANGUAGES) expect(clients.mendlog.selector).toContain(language);
  });

  test("Zed, whose extension is still to be written", () => {
    const { language_servers: servers } = parseToml(under("Zed", "toml")[0]!) as unknown as {
      language_servers: Record<string, { languages: string[] }>;
    };
    expect(servers.mendlog?.languages.map((name) => name.toLowerCase())).toEqual(LANGUAGES);
  });
});

test("the settings that are shown are settings, and all commands are named", () => {
  const named = blocks.flatMap(({ text }) =>
    [...text.matchAll(/severity\W+([a-z-]+[a-z])/g)].map(([, code]) => code),
  );
  expect(named.length).toBeGreaterThan(3);
  const codes = new Set<string | undefined>(CHECKS.map(({ code }) => code));
  expect(named.filter((code) => !codes.has(code))).toEqual([]);
  for (const command of COMMANDS) expect(page).toContain(`\`${command}\``);
});
