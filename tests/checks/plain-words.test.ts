// A finding is read at a glance: what was found stands first, with its number and its limit; what it rests on is on the
// hover. And every text a person sees is in plain words.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { CHECKS } from "../../server/src/checks/registry";
import { hoverLog } from "../../server/src/features/hover";
import { judgeBlock } from "../../server/src/judge";
import { extentOf, windowText } from "../../server/src/judge/compare";
import { formatValue } from "../../server/src/quantity/format-value";
import { md } from "../../server/src/text/markdown";
import { everyFinding, type Placed } from "../support/every-finding";
import { ROOT, sourcesBelow, wordsIn } from "../support/texts";

/** Characters that are seen of a message in a narrow panel, and the most that a message has. */
const GLANCE = 100;
const MOST = 240;

/** Checks that hold a number against a limit: their fact has both. */
const NUMBERED = new Set([
  "bus-held-low",
  "coil-diode",
  "coil-overload",
  "diode-out-of-window",
  "impossible-value",
  "junction-disproved",
  "level-undefined",
  "net-disagreement",
  "outside-expected",
  "passive-out-of-tolerance",
  "pin-outside-package",
  "pin-shorted",
  "rail-out-of-tolerance",
  "rail-shorted",
  "readings-offset",
  "socket-wrong-size",
  "supply-off-at-chips",
  "wrong-scale",
]);

/** Numbers of a text, without designators, pins and names in brackets; a word that a meter shows counts as one. */
const numbersIn = (text: string): number =>
  text
    .replace(/\b[A-Z]+\d+\b|\bpins? \w+|\([^() ]*\)|\+\d+V(?: raw)?|"[^"]*"/g, " ")
    .match(/-?\d+(?:[.,]\d+)*|\b(?:open|short|OL)\b/g)?.length ?? 0;

const IN_BRACKETS =
  /\([^()]*\b(?:no source|practice|from memory|data sheet|data book|user guide|invented|standard|JCGM|IEC|EIA|ISO|the board file)\b[^()]*\)/i;

/** Old-fashioned, upside down, or of nobody's trade. In questions "Whose" is plain. */
const NOT_SAID: readonly RegExp[] = [
  /\bwhose\b/,
  /\b(?:is|are) to be\b/i,
  /\bto be put\b/i,
  /\bby eye\b/i,
  /\bby the share of\b/i,
  /\bbeforehand\b/i,
  /\blest\b/i,
  /\banew\b/i,
  /\bhangs? on\b/i,
  /\b(?:once more|unasked|upon|thereby|therein|wherein|amiss)\b/i,
  /\bhe?ld against\b|\bhold against\b/i,
  /\bdrives? its\b/i,
  /\bmend(?:s|ed)?\b(?!log)/i,
  /\bput right\b/i,
  /\balike\b/i,
  /\bstands? (?:at|on|in|for|there|twice|beside|before|behind|between|against|still)\b/i,
  /\bstood\b/i,
  /\bwants? (?:a|an|the)\b/i,
  /\b(?:whatever|whichever|whatsoever)\b/i,
  /\bnothing but\b/i,
  /\b(?:cannot|not) be told\b/i,
  /\bas good as\b/i,
  /\bstraddles?\b/i,
  /\bought\b|\bshall\b/i,
];

const NOT_SAID_GERMAN: readonly RegExp[] = [
  /\b(?:welcher|welche|welches) (?:hierfür|dafür)\b/i,
  /\b(?:sodann|alsdann|mithin|hierbei|obig\w*|selbig\w*|dergestalt|nebst|behufs|mittels|sofern|zwecks|bezüglich)\b/i,
  /\bist zu (?:tun|setzen|stellen)\b/i,
  /\banbei\b/i,
];

const all = (): Promise<readonly Placed[]> => everyFinding();

const faults = async (fault: (placed: Placed) => string | undefined): Promise<string[]> => {
  const found = await all();
  expect(found.length).toBeGreaterThan(200);
  return [
    ...new Set(
      found.flatMap((placed) => {
        const why = fault(placed);
        return why === undefined
          ? []
          : [`${placed.finding.code}, ${placed.where}: ${why}: ${placed.finding.message}`];
      }),
    ),
  ];
};

describe("a finding's message", () => {
  test("has its whole fact in the first hundred characters", async () => {
    expect(
      await faults(({ finding: { fact, message } }) =>
        fact.length > GLANCE || !message.startsWith(fact) ? `${fact.length} characters` : undefined,
      ),
    ).toEqual([]);
  });

  test("says the number and the limit there, where the check holds one against the other", async () => {
    expect(
      await faults(({ finding: { code, fact } }) =>
        NUMBERED.has(code) && numbersIn(fact) < 2 ? "a number or a limit is missing" : undefined,
      ),
    ).toEqual([]);
  });

  test("says there what was read and the window it was held against", async () => {
    let compared = 0;
    expect(
      await faults(({ finding, service, uri }) => {
        const view = service.view(uri);
        if (finding.code !== "diode-out-of-window") return undefined;
        for (const { start, block } of view?.doc.blocks ?? [])
          for (const { reading, reference, code } of view ? judgeBlock(block, view.ctx).values() : []) {
            if (code !== finding.code || start + reading.cell.span.start !== finding.span.start) continue;
            const low = extentOf(reading.value)?.low ?? Number.NaN;
            const read = [reading.value.typed, formatValue(low, reference?.unit ?? "V"), "open", "a short"];
            compared += 1;
            if (!read.some((one) => finding.fact.includes(one))) return "does not say what was read";
            const ends = [reference?.low, reference?.high].flatMap((end) =>
              end === undefined || !reference ? [] : formatValue(end, reference.unit),
            );
            if (
              reference &&
              !finding.fact.includes(windowText(reference)) &&
              !ends.some((end) => finding.fact.includes(end))
            )
              return "does not say the limit";
          }
        return undefined;
      }),
    ).toEqual([]);
    expect(compared).toBeGreaterThan(10);
  });

  test("is no longer than can be read at once", async () => {
    expect(
      await faults(({ finding: { message } }) =>
        message.length > MOST ? `${message.length} characters` : undefined,
      ),
    ).toEqual([]);
  });

  test("has no source in it, and no list of what is on a net", async () => {
    expect(
      await faults(({ finding: { message, net, source } }) => {
        if (IN_BRACKETS.test(message)) return "a source in brackets";
        if (source !== undefined && source.length > 8 && message.includes(source)) return "its source";
        if (/\(\d+ pins\)/.test(message)) return "the number of a net's pins";
        const named = (net?.pins ?? []).filter(
          ({ ref, pin }) => message.includes(`${ref}.${pin}`) || message.includes(`${ref} pin ${pin} `),
        );
        return named.length > 2 ? "members of its net" : undefined;
      }),
    ).toEqual([]);
  });

  test("loses nothing: the hover has the source, the comparison, the net and what else was weighed", async () => {
    let looked = 0;
    expect(
      await faults(({ finding, service, uri }) => {
        const { formula, more, source, net, span } = finding;
        const view = service.view(uri);
        if (!formula && !more && !source && !net) return undefined;
        if (!view) return "a file without a hover";
        looked += 1;
        const hover = hoverLog(view, span.start, service.findings(uri))?.markdown ?? "";
        const missing = [
          ...(formula ? [formula.replaceAll("`", "'")] : []),
          ...(source ? [md(source)] : []),
          ...(net ? [`Net **${md(net.name)}**`] : []),
          ...(more ? more.split(/(?<=\.) (?=[A-Z])/).map(md) : []),
        ].filter((part) => !hover.includes(part));
        return missing.length > 0 ? `not on its hover: ${missing.join(" | ")}` : undefined;
      }),
    ).toEqual([]);
    expect(looked).toBeGreaterThan(80);
  });
});

const notPlain = (text: string, words: readonly RegExp[] = NOT_SAID): string[] =>
  words.flatMap((word) => word.exec(text)?.[0] ?? []);

describe("plain words", () => {
  test.each([
    "A coil whose diode is open",
    "Where is the new log to be put?",
    "J5 disproved: J5 by eye.",
    "What stands there now",
    "It wants a charger of its own",
  ])("would be seen: %s", (text) => expect(notPlain(text)).not.toEqual([]));

  test("in every finding, and what is beside it", async () => {
    expect(
      await faults(({ finding: { message, more, related } }) => {
        const found = notPlain([message, more, ...(related ?? []).map((one) => one.message)].join(" "));
        return found.length > 0 ? found.join(", ") : undefined;
      }),
    ).toEqual([]);
  });

  test("in the words of every check", () => {
    const texts = CHECKS.flatMap(({ code, title, why, remedy, noFix, options }) =>
      [title, why, remedy, noFix, ...(options ?? []).map(({ description }) => description)].map(
        (text) => [code, text ?? ""] as const,
      ),
    );
    expect(texts.filter(([, text]) => notPlain(text).length > 0)).toEqual([]);
  });

  test("in every text of the server and of the client", () => {
    const texts = sourcesBelow("server/src", "client/src")
      .filter(
        (file) => !/server\/src\/(?:checks|pictures)\/|quantity\/words\.ts|pane\/(?:style|script)/.test(file),
      )
      .flatMap(wordsIn);
    expect(texts.length).toBeGreaterThan(1_000);
    expect(
      texts.filter(({ text }) => notPlain(text).length > 0).map(({ at, text }) => `${at}: ${text}`),
    ).toEqual([]);
  });

  const strings = (value: unknown): string[] =>
    typeof value === "string"
      ? [value]
      : typeof value === "object" && value !== null
        ? Object.values(value).flatMap(strings)
        : [];

  test.each(["package.nls.json", "l10n/bundle.l10n.json"])("in %s", (file) => {
    const texts = strings(JSON.parse(readFileSync(join(ROOT, file), "utf8")));
    expect(texts.length).toBeGreaterThan(50);
    expect(texts.filter((text) => notPlain(text).length > 0)).toEqual([]);
  });

  test.each(["package.nls.de.json", "l10n/bundle.l10n.de.json"])("in German, in %s", (file) => {
    const texts = strings(JSON.parse(readFileSync(join(ROOT, file), "utf8")));
    expect(texts.length).toBeGreaterThan(50);
    expect(texts.filter((text) => notPlain(text, NOT_SAID_GERMAN).length > 0)).toEqual([]);
    // A setting's description is as long as it needs to be; what pops up is short.
    if (file.startsWith("l10n")) expect(texts.filter((text) => text.length > MOST)).toEqual([]);
  });
});
