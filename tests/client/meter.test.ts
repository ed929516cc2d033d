import { afterEach, describe, expect, test } from "vitest";
import { parseAddress } from "../../client/src/meter/address";
import { Instrument } from "../../client/src/meter/instrument";
import { simulateInstrument } from "../support/instrument.js";

describe("an address", () => {
  test.each([
    ["192.168.1.50", "192.168.1.50", 5025],
    ["meter.local:5024", "meter.local", 5024],
    [" localhost:1 ", "localhost", 1],
    ["[fe80::1%eth0]:5025", "fe80::1%eth0", 5025],
    ["::1", "::1", 5025],
  ])("%s", (text, host, port) => {
    expect(parseAddress(text)).toEqual({ host, port });
  });

  test.each([
    "",
    "  ",
    "a b",
    "host:",
    "host:0",
    "host:70000",
    "http://host",
    "user@host",
    "host:12:34x",
    "[::1",
  ])("%s is none", (text) => {
    expect(parseAddress(text)).toBeUndefined();
  });
});

const ends: (() => unknown)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0)) await end();
});

async function bench(options: Parameters<typeof simulateInstrument>[0]) {
  const meter = await simulateInstrument(options);
  const instrument = new Instrument({ host: "127.0.0.1", port: meter.port });
  ends.push(() => instrument.dispose(), meter.close);
  return { meter, instrument };
}

/** Milliseconds. Only what goes wrong takes so long, so it costs nothing to have enough for a busy machine. */
const PATIENCE = 20_000;

describe("an instrument", () => {
  test("answers question after question over one connection, in order", async () => {
    let n = 0;
    const { meter, instrument } = await bench({ answer: () => `+5.8${++n}E-01` });
    const all = await Promise.all([1, 2, 3].map(() => instrument.ask("READ?", PATIENCE)));
    expect(all).toEqual(["+5.81E-01", "+5.82E-01", "+5.83E-01"].map((text) => ({ ok: true, text })));
    expect(meter.connections()).toBe(1);
    expect(meter.heard).toEqual(["READ?", "READ?", "READ?"]);
  });

  test("may send its answer in pieces and end it with CR LF", async () => {
    const { instrument } = await bench({
      misbehave: (socket) => {
        socket.write("+5.8");
        setTimeout(() => socket.write("0E-01\r\n"), 20);
        return true;
      },
    });
    expect(await instrument.ask("READ?", PATIENCE)).toEqual({ ok: true, text: "+5.80E-01" });
  });

  test("that never answers is given up, and what it says too late is no answer to the next question", async () => {
    let late: (() => void) | undefined;
    const { meter, instrument } = await bench({
      misbehave: (socket) => {
        if (!late) {
          late = () => socket.write("+1.11E+00\n");
          return true;
        }
        // Before the answer to the question after it, and again before the one after that.
        late();
        return false;
      },
      answer: () => "+2.22E+00",
    });
    const after = 500;
    expect(await instrument.ask("READ?", after)).toEqual({ ok: false, failure: { kind: "silent", after } });
    expect(await instrument.ask("READ?", PATIENCE)).toEqual({ ok: true, text: "+2.22E+00" });
    expect(await instrument.ask("READ?", PATIENCE)).toEqual({ ok: true, text: "+2.22E+00" });
    expect(meter.connections()).toBe(2);
  });

  test("that says more than it was asked for is asked anew: the rest is no answer to the next question", async () => {
    let n = 0;
    const { meter, instrument } = await bench({ answer: () => `+1.${++n}E+00\n+9.9E+09` });
    expect(await instrument.ask("READ?", PATIENCE)).toEqual({ ok: true, text: "+1.1E+00" });
    expect(await instrument.ask("READ?", PATIENCE)).toEqual({ ok: true, text: "+1.2E+00" });
    expect(meter.connections()).toBe(2);
  });

  test("that hangs up says so, and is there again for the next question", async () => {
    let first = true;
    const { instrument } = await bench({
      misbehave: (socket) => {
        if (!first) return false;
        first = false;
        socket.end("+1.1");
        return true;
      },
      answer: () => "+2.22E+00",
    });
    expect(await instrument.ask("READ?", PATIENCE)).toEqual({ ok: false, failure: { kind: "hung-up" } });
    expect(await instrument.ask("READ?", PATIENCE)).toEqual({ ok: true, text: "+2.22E+00" });
  });

  test("where nobody listens cannot be reached", async () => {
    const { meter, instrument } = await bench({});
    await meter.close();
    const answer = await instrument.ask("READ?", PATIENCE);
    expect(answer).toEqual({ ok: false, failure: { kind: "unreachable", detail: "ECONNREFUSED" } });
  });

  test("that talks without end is cut off", async () => {
    const { instrument } = await bench({
      misbehave: (socket) => {
        socket.write("x".repeat(10_000));
        return true;
      },
    });
    expect(await instrument.ask("READ?", PATIENCE)).toEqual({ ok: false, failure: { kind: "babble" } });
  });

  test("is not waited for any longer than the person wants", async () => {
    const { instrument } = await bench({ misbehave: () => true });
    const stop = new AbortController();
    const asked = instrument.ask("READ?", PATIENCE, stop.signal);
    const queued = instrument.ask("READ?", PATIENCE, stop.signal);
    setTimeout(() => stop.abort(), 20);
    expect(await asked).toEqual({ ok: false, failure: { kind: "cancelled" } });
    expect(await queued).toEqual({ ok: false, failure: { kind: "cancelled" } });
  });
});
