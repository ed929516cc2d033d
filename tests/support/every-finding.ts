// Every finding there is to look at: those of every check's examples, and those of the demo.

import type { Finding } from "../../server/src/checks/check";
import { textOf } from "../../server/src/checks/example";
import { CHECKS } from "../../server/src/checks/registry";
import type { Service } from "../../server/src/service";
import { demoLogs, openDemo } from "./demo";
import { nameOfBad } from "./example-name";
import { openWorld } from "./workspace";

export interface Placed {
  /** "demo/logs/2026-018-controller.md", "example of rail-shorted: 0.3 ohm". */
  readonly where: string;
  readonly uri: string;
  readonly finding: Finding;
  readonly service: Service;
}

let all: Promise<readonly Placed[]> | undefined;

/** Made once for all who ask. */
export const everyFinding = (): Promise<readonly Placed[]> => {
  all ??= gathered();
  return all;
};

async function gathered(): Promise<readonly Placed[]> {
  const found: Placed[] = [];
  for (const { code, examples } of CHECKS) {
    for (const example of [...examples.bad, ...examples.good]) {
      const { service, files } = await openWorld(textOf(example));
      for (const { uri } of files)
        for (const finding of service.findings(uri))
          found.push({ where: `example of ${code}: ${nameOfBad(code, example)}`, uri, finding, service });
    }
  }
  const service = await openDemo();
  for (const [uri, text] of demoLogs) service.open(uri, text);
  for (const [uri] of demoLogs) {
    await service.prepareImages(uri);
  }
  for await (const _ of service.index());
  for (const [uri] of demoLogs)
    for (const finding of service.findings(uri))
      found.push({ where: uri.slice("mem:/".length), uri, finding, service });
  return found;
}
