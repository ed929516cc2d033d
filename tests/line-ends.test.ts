// A log whose lines end with a lone return, as CommonMark and YAML have it, is the same log with the same findings, place by place.
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { Service } from "../server/src/service";

const folder = (path: string) => new URL(`../demo/${path}/`, import.meta.url);
const filesOf = (path: string): [string, string][] =>
  readdirSync(folder(path))
    .filter((name) => /\.(md|yaml)$/.test(name))
    .map((name) => [
      `mem:/ws/${path}/${name}`,
      readFileSync(new URL(name, folder(path)), "utf8").replaceAll("\r\n", "\n"),
    ]);
const FILES = [...filesOf("boards"), ...filesOf("logs")];

async function findingsWith(lineEnd: string) {
  const texts = new Map(FILES.map(([uri, text]) => [uri, text.replaceAll("\n", lineEnd)]));
  const service = new Service({
    read: async (uri) => texts.get(uri),
    list: async () => [...texts.keys()],
    readBytes: async () => ({ ok: false, reason: "absent" }),
  });
  await service.load();
  for await (const _ of service.index());
  return [...texts].map(([uri, text]) => {
    service.open(uri, text);
    return {
      uri,
      findings: service.findings(uri).map(({ code, span, message }) => ({ code, span, message })),
    };
  });
}

test("lines that end with a lone return", async () => {
  const usual = await findingsWith("\n");
  expect(usual.flatMap(({ findings }) => findings).length).toBeGreaterThan(20);
  expect(await findingsWith("\r")).toEqual(usual);
});
