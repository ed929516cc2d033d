// What a thread does that reads and checks closed logs: it is told what it needs to know of the workspace, piece by piece, and
// answers one log after another.
import { finish } from "../base/steps";
import { Service } from "../service";
import type { FileText, FindingTold, FoundElsewhere, Host } from "../workspace/host";
import { KnowledgeStore } from "../workspace/knowledge-store";
import { rememberedWhole } from "../workspace/read-index";
import type { Remembered } from "../workspace/remembered";
import type { Settings } from "../workspace/settings";
import { type Sums, unpackSums } from "../workspace/shared-sums";

/** What a thread is told, one thing after another. */
export type ToldWorker =
  /** The files of devices and procedures that logs are summed up with. */
  | { readonly kind: "library"; readonly files: readonly FileText[] }
  /** What logs are checked with: what changed of each since the last time. */
  | { readonly kind: "knowledge"; readonly changed: readonly FileText[]; readonly gone: readonly string[] }
  | { readonly kind: "remembered"; readonly sums: Sums; readonly gone: readonly string[] }
  | { readonly kind: "settings"; readonly settings: Settings }
  | { readonly kind: "folders"; readonly uris: readonly string[] };

/** What a thread is asked; `id` stands in its answer. */
export type AskedWorker = { readonly id: number } & (
  | { readonly kind: "sum" | "check"; readonly log: FileText }
  | { readonly kind: "shop page" }
);

export interface WorkerAnswer {
  readonly id: number;
  /** Absent where the work broke down. */
  readonly found?: Remembered | FoundElsewhere | string;
}

/** What the thread has of the machine: the bytes of images in the folders that are open. */
export interface WorkerHost extends Pick<Host, "readBytes"> {
  setFolders(uris: readonly string[]): void;
}

/** A workspace of its own, of nothing but what it is told. */
export class LogWorker {
  readonly #host: WorkerHost;
  readonly #knowledge = new Map<string, string>();
  #store = new KnowledgeStore();
  #service: Service | undefined;
  #remembered: Remembered[] = [];
  #gone: string[] = [];

  constructor(host: WorkerHost) {
    this.#host = host;
  }

  /** To be told one thing after another: the next when this has resolved. */
  async tell(told: ToldWorker): Promise<void> {
    switch (told.kind) {
      case "library":
        this.#store = new KnowledgeStore();
        for (const { uri, text } of told.files) this.#store.set(uri, text);
        return;
      case "knowledge":
        for (const { uri, text } of told.changed) this.#knowledge.set(uri, text);
        for (const uri of told.gone) this.#knowledge.delete(uri);
        for (const uri of [...told.changed.map((file) => file.uri), ...told.gone])
          await this.#checking().fileChanged(uri);
        return;
      case "remembered":
        // Taken in at once when all of it is there.
        this.#remembered.push(...unpackSums(told.sums));
        this.#gone.push(...told.gone);
        return;
      case "settings":
        this.#checking().settings = told.settings;
        return;
      case "folders":
        this.#host.setFolders(told.uris);
        this.#service?.foldersChanged();
    }
  }

  /** The same for what is asked. Never fails. */
  async answer(asked: AskedWorker): Promise<WorkerAnswer> {
    const { id } = asked;
    try {
      switch (asked.kind) {
        case "sum":
          return { id, found: this.#sum(asked.log) };
        case "check":
          return { id, found: await this.#check(asked.log) };
        case "shop page":
          return { id, found: this.#upToDate().shopPageHere() };
      }
    } catch {
      return { id };
    }
  }

  #sum({ uri, text }: FileText): Remembered {
    return rememberedWhole(uri, text, this.#store.library());
  }

  async #check({ uri, text }: FileText): Promise<FoundElsewhere> {
    const service = this.#upToDate();
    finish(service.prepare(uri, text));
    await service.prepareImages(uri, text);
    const findings = service.findingsOf(uri, text).map(told);
    return { findings, images: service.imagesNamedBy(uri) };
  }

  /** With all that was remembered so far taken in. */
  #upToDate(): Service {
    const service = this.#checking();
    if (this.#remembered.length + this.#gone.length > 0) service.recall(this.#remembered, this.#gone);
    this.#remembered = [];
    this.#gone = [];
    return service;
  }

  #checking(): Service {
    const { readBytes } = this.#host;
    this.#service ??= new Service({
      read: async (uri) => this.#knowledge.get(uri),
      list: async () => [...this.#knowledge.keys()],
      ...(readBytes ? { readBytes: (uri, most) => readBytes.call(this.#host, uri, most) } : {}),
    });
    return this.#service;
  }
}

const told = ({ code, severity, span, message, related, tags }: FindingTold): FindingTold => ({
  code,
  severity,
  span,
  message,
  ...(related ? { related } : {}),
  ...(tags ? { tags } : {}),
});
