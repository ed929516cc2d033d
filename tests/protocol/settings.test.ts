import { readFileSync } from "node:fs";
import Ajv from "ajv";
import { describe, expect, test } from "vitest";
import { readShown } from "../../server/src/protocol/display-settings";
import { readSettings } from "../../server/src/protocol/settings";

const read = (path: string) => JSON.parse(readFileSync(new URL(`../../${path}`, import.meta.url), "utf8"));
const manifest = read("package.json");
const words: Record<string, string> = read("package.nls.json");

interface Setting {
  readonly default: unknown;
  readonly scope: string;
  readonly markdownDescription: string;
  readonly enum?: readonly string[];
  readonly enumDescriptions?: readonly string[];
}
const groups: { properties: Record<string, Setting> }[] = [manifest.contributes.configuration].flat();
const settings = groups.flatMap(({ properties }) => Object.entries(properties));

describe("every setting", () => {
  test.each(settings)("%s is described, scoped and begins with what it allows", (_name, setting) => {
    expect(["window", "resource", "machine-overridable"]).toContain(setting.scope);
    const described = [setting.markdownDescription, ...(setting.enumDescriptions ?? [])];
    expect(described.length).toBe(1 + (setting.enumDescriptions ? (setting.enum ?? []).length : 0));
    for (const key of described) expect(words[key.replaceAll("%", "")]).toMatch(/\.$/);
    const { scope, markdownDescription, enumDescriptions, ...schema } = setting;
    const valid = new Ajv({ strict: false }).compile(schema);
    expect(valid(setting.default), JSON.stringify(valid.errors)).toBe(true);
    expect(valid(["no setting is a list"])).toBe(false);
  });
});

describe("what cannot be used is told", () => {
  test.each([
    [{ severity: { "diode-out-of-window": "off" }, options: { "net-disagreement": { margin: 2 } } }, []],
    [{ severity: null, options: undefined }, []],
    [undefined, []],
    ["all off", []],
    [{ severity: { "no-such-check": "off" } }, [/"no-such-check".*no check/]],
    [{ severity: { "diode-out-of-window": "loud" } }, [/"loud".*default, error/]],
    [{ severity: "off" }, [/mendlog\.severity is "off".*check by check/]],
    [{ severity: ["diode-out-of-window"] }, [/mendlog\.severity/]],
    [{ options: { "net-disagreement": 5 } }, [/mendlog\.options\.net-disagreement is 5/]],
    [{ options: { "net-disagreement": { margin: 500 } } }, [/mendlog\.options.*margin/]],
    [{ options: { "net-disagreement": { other: 1 } } }, [/mendlog\.options.*other/]],
  ])("%j", (section, told) => {
    const { problems } = readSettings(section);
    expect(problems).toHaveLength(told.length);
    told.forEach((each, n) => {
      expect(problems[n]).toMatch(each);
    });
  });

  test("of what is shown beside the text too", () => {
    const { shown, problems } = readShown({ codeLens: "yes", inlayHints: { pins: 1, verdicts: "doubtful" } });
    expect(shown).toEqual({ lenses: true, hints: { pins: true, verdicts: "doubtful" } });
    expect(problems).toHaveLength(2);
  });
});
