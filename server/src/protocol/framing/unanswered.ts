import { Message } from "vscode-languageserver";

/** Milliseconds in which what was asked before the end is answered; an answer that takes longer is nobody's any more. */
const PATIENCE = 2000;

/** Requests of the client that have no answer yet, so that the process does not end on them. */
export interface Unanswered {
  came(message: Message): void;
  written(message: Message): void;
  /** When every request that came has its answer, or has waited long enough for one. */
  settled(): Promise<void>;
}

/** Keeps count of requests; `patience` is how many milliseconds `settled` waits at most. */
export function unanswered(patience = PATIENCE): Unanswered {
  const open = new Set<unknown>();
  const waiting: (() => void)[] = [];
  const tell = (): void => {
    if (open.size === 0) for (const go of waiting.splice(0)) go();
  };
  return {
    came(message) {
      if (Message.isRequest(message)) open.add(message.id);
    },
    written(message) {
      if (Message.isResponse(message)) open.delete(message.id);
      tell();
    },
    async settled() {
      if (open.size === 0) return;
      let timer: NodeJS.Timeout | undefined;
      await Promise.race([
        new Promise<void>((resolve) => waiting.push(resolve)),
        new Promise<void>((resolve) => {
          timer = setTimeout(resolve, patience);
        }),
      ]);
      clearTimeout(timer);
    },
  };
}
