// The built language server in a folder of logs, as an editor that asks for the findings of the whole workspace starts it; with
// what it has cost so far, by the kernel's accounts of the process and all of its threads.
import { readFileSync } from "node:fs";
import { FULL_CAPABILITIES, startClient } from "../../protocol/client.js";

/** Ticks a second of the kernel's accounts: 100 on every Linux there is. */
const TICKS = 100;
const CLOSED = "closed";
export const sleep = (milliseconds) => new Promise((go) => setTimeout(go, milliseconds));

/**
 * Starts the server and opens one log at once.
 * @param {{ folder: string, storage: string, uri: string, text: string, nodeOptions?: string[] }} of
 */
export async function startIn({ folder, storage, uri, text, nodeOptions = [] }) {
  const began = performance.now();
  const client = await startClient({
    folders: [folder],
    capabilities: FULL_CAPABILITIES,
    initializationOptions: { storage },
    nodeOptions,
  });
  const account = (name) => readFileSync(`/proc/${client.pid}/${name}`, "utf8");
  const megabytes = (name) => Number(new RegExp(`${name}:\\s+(\\d+)`).exec(account("status"))[1]) / 1024;
  /** Seconds of processor time. */
  const cpu = () => {
    const fields = account("stat")
      .replace(/^.*\) /, "")
      .split(" ");
    return (Number(fields[11]) + Number(fields[12])) / TICKS;
  };
  const wall = () => (performance.now() - began) / 1000;
  /** Milliseconds that the server's own thread has worked, without its other threads and without waiting for a core. */
  const worked = () =>
    Number(readFileSync(`/proc/${client.pid}/task/${client.pid}/schedstat`, "utf8").split(" ")[0]) / 1e6;
  let version = 1;
  client.open(uri, text);
  return {
    cpu,
    wall,
    rss: () => megabytes("VmRSS"),
    peak: () => megabytes("VmHWM"),
    /** The findings of the open log as it stands. */
    findings: async () => (await client.request("textDocument/diagnostic", { textDocument: { uri } })).items,
    /** Asks for the findings of all closed files, as an editor does; they come in one by one. */
    askForClosed() {
      client
        .request("workspace/diagnostic", { previousResultIds: [], partialResultToken: CLOSED })
        .catch(() => undefined);
    },
    /** By uri: what was told of closed files so far. The first is told when every log is remembered. */
    closed() {
      const reports = new Map();
      for (const { token, value } of client.progress)
        if (token === CLOSED) for (const { uri: of, items } of value.items) reports.set(of, items);
      return reports;
    },
    /**
     * Milliseconds from a digit typed to its findings: by the clock, and how much of it the server's own thread worked, on the
     * key and on what it had to bring to an end first. The rest is waiting for a core where other programs keep them busy.
     */
    async typed(position, digit) {
      const at = performance.now();
      const before = worked();
      version += 1;
      const end = { line: position.line, character: position.character + 1 };
      client.change(uri, version, { range: { start: position, end }, text: digit });
      await client.request("textDocument/diagnostic", { textDocument: { uri } });
      const clock = performance.now() - at;
      return { clock, own: worked() - before };
    },
    async stop() {
      await client.stop();
      client.connection.dispose();
    },
    kill: () => client.kill(),
  };
}
