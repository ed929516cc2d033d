export interface Held {
  readonly stint: number;
  readonly cpu: number;
  readonly key: number;
  readonly codes: readonly string[];
}
export interface HeldUp {
  /** @param block true keeps the server busy for 300 ms on purpose, for the measure's own sake */
  give(path: string, text: string, block?: boolean): Promise<Held>;
  end(): void;
}
export function startHeldUp(files?: Readonly<Record<string, string>>): Promise<HeldUp>;
