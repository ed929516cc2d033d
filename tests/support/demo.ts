// The demo workspace, read once, in a service of its own for each test that wants to type in it.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { LogView } from "../../server/src/features/view";
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

const TYPED = "mem:/demo/logs/typed.md";

/** A log of the demo's folder with this text, as the service sees it. */
export function typedView(service: Service, text: string): LogView {
  service.open(TYPED, text);
  const view = service.view(TYPED);
  if (!view) throw new Error("no log");
  return view;
}

/** The demo with its knowledge files read and no log open. */
export async function openDemo(): Promise<Service> {
  const service = new Service({
    read: async (uri) => demoFiles.get(uri),
    list: async () => [...demoFiles.keys()],
  });
  await service.load();
  return service;
}
