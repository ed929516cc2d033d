// A log that was read for the memory is not parsed again for its findings.
import { afterEach, expect, test, vi } from "vitest";
import { Service } from "../../server/src/service";
import { Disk } from "../support/disk";

const made = vi.hoisted(() => ({ readers: 0 }));
vi.mock("../../server/src/log/document", async (original) => {
  const module = await original<typeof import("../../server/src/log/document")>();
  class LogReader extends module.LogReader {
    constructor(uri: string) {
      super(uri);
      made.readers++;
    }
  }
  return { ...module, LogReader };
});
afterEach(() => {
  made.readers = 0;
});

const URI = "mem:/a.md";
const LOG = "---\nmendlog: 1\n---\n\n## Supply rails\n\n| Rail | DC |\n|-|-|\n| +5V | 5.02 |\n";

async function remembered(keep: number): Promise<Service> {
  const service = new Service(new Disk({ [URI]: LOG, "mem:/notes.md": "# Notes" }));
  for await (const _ of service.index({ keep })) {
    // To its end.
  }
  expect(service.memory().logs.size).toBe(1);
  return service;
}

const ASKS: readonly (readonly [string, (service: Service) => void])[] = [
  ["closed", (service) => service.findingsOf(URI, LOG)],
  ["closed, in steps", (service) => [...service.prepare(URI, LOG), service.findingsOf(URI, LOG)]],
  [
    "opened",
    (service) => {
      service.open(URI, LOG);
      service.findings(URI);
    },
  ],
];

test.each(ASKS)("%s: one reader where the parse is kept, another one where it is not", async (_, ask) => {
  ask(await remembered(LOG.length));
  expect(made.readers).toBe(1);
  made.readers = 0;
  ask(await remembered(LOG.length - 1));
  expect(made.readers).toBe(2);
});

test("a kept parse is of that text only and handed out once", async () => {
  const service = await remembered(LOG.length);
  service.findingsOf(URI, `${LOG}\nmore\n`);
  expect(made.readers).toBe(2);
  service.findingsOf(URI, LOG);
  expect(made.readers).toBe(3);
});

test("an open log is read by its own reader", async () => {
  const service = new Service(new Disk({ [URI]: LOG }));
  service.open(URI, LOG);
  for await (const _ of service.index()) {
    // To its end.
  }
  service.findings(URI);
  expect(made.readers).toBe(1);
});
