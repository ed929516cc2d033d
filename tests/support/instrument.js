// A simulated bench meter on a TCP port of this machine: it answers like one, or fails in the way it is told to.
import { createServer } from "node:net";

/**
 * @param {object} [options]
 * @param {(query: string) => string | undefined} [options.answer] the answer to a query without its line feed; undefined
 *   for none
 * @param {(socket: import("node:net").Socket, query: string) => boolean} [options.misbehave] true where it has dealt
 *   with the query itself
 * @returns {Promise<{ port: number, heard: string[], connections: () => number, close: () => Promise<void> }>}
 */
export async function simulateInstrument({ answer = () => undefined, misbehave } = {}) {
  const heard = [];
  const sockets = new Set();
  let connections = 0;
  const server = createServer((socket) => {
    connections += 1;
    sockets.add(socket);
    socket.on("close", () => sockets.delete(socket));
    socket.on("error", () => {});
    let text = "";
    socket.on("data", (chunk) => {
      text += chunk.toString("latin1");
      for (let end = text.indexOf("\n"); end >= 0; end = text.indexOf("\n")) {
        const query = text.slice(0, end).trim();
        text = text.slice(end + 1);
        heard.push(query);
        if (misbehave?.(socket, query)) continue;
        const said = answer(query);
        if (said !== undefined) socket.write(`${said}\n`);
      }
    });
  });
  await new Promise((listening) => server.listen(0, "127.0.0.1", listening));
  return {
    port: server.address().port,
    heard,
    connections: () => connections,
    close: () =>
      new Promise((closed) => {
        for (const socket of sockets) socket.destroy();
        server.close(closed);
      }),
  };
}
