// A host whose files can be changed while a service looks at them.
import type { Host } from "../../server/src/workspace/host";

export class Disk implements Host {
  readonly files: Map<string, string>;
  reads = 0;

  constructor(files: Readonly<Record<string, string>>) {
    this.files = new Map(Object.entries(files));
  }

  async read(uri: string): Promise<string | undefined> {
    this.reads += 1;
    return this.files.get(uri);
  }

  async list(): Promise<readonly string[]> {
    return [...this.files.keys()];
  }
}
