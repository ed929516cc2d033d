// The demo workspace, read once, in a service of its own for each test that wants to type in it.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Service } from "../../server/src/service";

const ROOT = fileURLToPath(new URL("../../demo/", import.meta.url));

const files: ReadonlyMap<string, string> = new Map(
  readdirSync(ROOT, { recursive: true })
    .map(String)
    .filter((name) => /\.(md|yaml)$/.test(name))
    .sort()
    .map((name) => [`mem:/demo/${name.replaceAll("\\", "/")}`, readFileSync(ROOT + name, "utf8")]),
);

export const demoLogs: readonly (readonly [uri: string, text: string])[] = [...files].filter(([uri]) =>
  /\/logs\/.*\.md$/.test(uri),
);

export const demoText = (uri: string): string => files.get(uri) ?? "";

/** The demo with its knowledge files read and no log open. */
export async function openDemo(): Promise<Service> {
  const service = new Service({ read: async (uri) => files.get(uri), list: async () => [...files.keys()] });
  await service.load();
  return service;
}
