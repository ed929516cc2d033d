/** Something that happens again and again. Whoever makes it happen does not know who has to do something about it. */
export interface Emitter<T> {
  on(listener: (value: T) => void): void;
  fire(value: T): void;
}

/** Listeners hear in the order they came in, and as long as the session lasts. */
export function emitter<T = void>(): Emitter<T> {
  const listeners: ((value: T) => void)[] = [];
  return {
    on(listener) {
      listeners.push(listener);
    },
    fire(value) {
      for (const listener of listeners) listener(value);
    },
  };
}
