// Closed logs checked as by other threads, here: each worker is told by copies, as a thread is.
import type { Service } from "../../server/src/service";
import { LogNews } from "../../server/src/threads/log-news";
import { LogWorker } from "../../server/src/threads/log-worker";
import type {
  CheckedWith,
  Checking,
  FileBytes,
  FileText,
  FindingTold,
  FoundElsewhere,
} from "../../server/src/workspace/host";
import { Disk } from "./disk";

/** A disk whose files have bytes, so that images and pictures are looked at. */
export class Pictures extends Disk {
  async readBytes(of: string, most: number): Promise<FileBytes> {
    const text = this.files.get(of);
    if (text === undefined) return { ok: false, reason: "absent" };
    const bytes = new TextEncoder().encode(text);
    return bytes.length > most ? { ok: false, reason: "too-large", size: bytes.length } : { ok: true, bytes };
  }
}

/** Checks as threads do. */
export class WorkersHere implements Checking {
  readonly most = 4;
  asked = 0;
  readonly #news = new LogNews();
  readonly #workers: { worker: LogWorker; by: CheckedWith | undefined }[];

  constructor(disk: Pictures, count: number) {
    this.#workers = Array.from({ length: count }, () => ({
      worker: new LogWorker({ readBytes: (of, most) => disk.readBytes(of, most), setFolders: () => {} }),
      by: undefined,
    }));
  }

  async #told(by: CheckedWith): Promise<LogWorker> {
    const thread = this.#workers[this.asked++ % this.#workers.length]!;
    for (const news of this.#news.between(thread.by, by)) await thread.worker.tell(structuredClone(news));
    thread.by = by;
    return thread.worker;
  }

  async check(log: FileText, by: CheckedWith): Promise<FoundElsewhere | undefined> {
    const worker = await this.#told(by);
    return structuredClone(await worker.answer({ kind: "check", id: 1, log })).found as FoundElsewhere;
  }

  async shopPage(by: CheckedWith): Promise<string | undefined> {
    const worker = await this.#told(by);
    return (await worker.answer({ kind: "shop page", id: 1 })).found as string;
  }
}

/** What is told of findings, to be compared. */
export const toldOf = (findings: readonly FindingTold[]) =>
  findings.map(({ code, severity, span, message, related, tags }) => [
    code,
    severity,
    span.start,
    span.end,
    message,
    related?.map((each) => [each.uri, each.span.start, each.message]) ?? [],
    tags ?? [],
  ]);

/** The same as it is found here in a service that has seen nothing else. */
export async function foundHere(service: Service, of: string, text: string) {
  for (const _ of service.prepare(of, text));
  await service.prepareImages(of, text);
  return toldOf(service.findingsOf(of, text));
}
