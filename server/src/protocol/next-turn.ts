/** Lets what has arrived meanwhile be handled first: new edits and cancellations. */
export const nextTurn = (): Promise<void> =>
  new Promise((resolve) => {
    if (typeof setImmediate === "function") setImmediate(resolve);
    else afterMessage(resolve);
  });

/** In a worker of the browser, whose timers wait longer the deeper they are nested. */
function afterMessage(then: () => void): void {
  const { port1, port2 } = new MessageChannel();
  port1.addEventListener(
    "message",
    () => {
      port1.close();
      then();
    },
    { once: true },
  );
  port1.start();
  port2.postMessage(null);
}
