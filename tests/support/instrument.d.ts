import type { Socket } from "node:net";

export interface SimulatedInstrument {
  readonly port: number;
  /** The messages that came in, in order. */
  readonly heard: string[];
  readonly connections: () => number;
  readonly close: () => Promise<void>;
}

export function simulateInstrument(options?: {
  readonly answer?: (query: string) => string | undefined;
  readonly misbehave?: (socket: Socket, query: string) => boolean;
}): Promise<SimulatedInstrument>;
