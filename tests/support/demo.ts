// The demo workspace, read once, in a service of its own for each test that wants to type in it.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Service } from "../../server/src/service";

const ROOT = fileURLToPath(new URL("../../demo/", import.meta.url));

/** Logs and knowledge files of the demo by uri. */
export const demoFiles: ReadonlyMap<string, string> = new Map(
  readdirSync(ROOT, { recursive: true })
    .map(String)
    .filter((name) => /\.(md|yaml)$/.test(name))
    .sort()
    .map((name) => [`mem:/demo/${name.replaceAll("\\", "/")}`, readFileSync(ROOT + name, "utf8")]),
);

export const demoLogs: readonly (readonly [uri: string, text: string])[] = [...demoFiles].filter(([uri]) =>
  /\/logs\/.*\.md$/.test(uri),
);

export const demoText = (uri: string): string => demoFiles.get(uri) ?? "";

/** The demo with its knowledge files read and no log open. */
export async function openDemo(): Promise<Service> {
  const service = new Service({
    read: async (uri) => demoFiles.get(uri),
    list: async () => [...demoFiles.keys()],
  });
  await service.load();
  return service;
}
