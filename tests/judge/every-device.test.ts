import { expect, test } from "vitest";
import { builtinLibrary } from "../../server/src/knowledge/library";
import type { Device } from "../../server/src/knowledge/types";
import { parseQuantity } from "../../server/src/quantity/quantity";
import { boardHead, logOf } from "../support/boards";
import { table } from "../support/tables";
import { openWorld } from "../support/workspace";

const volts = (text: string): number => {
  const parsed = parseQuantity(text, { unit: "V" });
  if (!parsed.ok) throw new Error(parsed.message);
  return parsed.quantity.value;
};

const middle = ([low, high]: readonly [string, string]): number => (volts(low) + volts(high)) / 2;

/** What a pin that nothing is wrong with reads, by its family's window; undefined where there is none. */
function cleanDrop(device: Device, pin: string, nth: number): string | undefined {
  const diode = builtinLibrary().device(device.id)?.family?.diode;
  const direction = device.pins.get(pin)?.direction;
  if (direction === "ground") return "0.001";
  if (direction === "not-connected") return "OL";
  if (!diode || direction === "passive") return undefined;
  if (direction === "supply") return diode.supply ? middle(diode.supply).toFixed(3) : undefined;
  // A few millivolts from pin to pin, as on a real chip.
  return (middle(diode.signal) + ((nth % 7) - 3) * 0.003).toFixed(3);
}

const boardOf = (device: Device): string => `${boardHead("clean")}parts:
  U1: { device: ${JSON.stringify(device.id)} }
`;

const devices = builtinLibrary().devices;

// Every device of the library, soldered alone to a board, with the readings of one that nothing is wrong with.
test.each(devices.map((device) => [device.id, device] as const))(
  "%s: a clean log has no findings",
  async (_, device) => {
    const drops = [...device.pins.keys()].map(
      (pin, nth) => `U1 | ${pin} | ${cleanDrop(device, pin, nth) ?? "-"}`,
    );
    const levels = [...device.pins.values()].flatMap(({ number, direction, signal }) => {
      if (direction === "ground") return [`U1 | ${number} | 0.002 V`];
      const made = direction === "output" ? device.limits.get("output") : undefined;
      if (made) return [`U1 | ${number} | ${middle(made).toFixed(2)} V`];
      // What an output shows with all inputs low hangs on what the chip does with them.
      const isFree = direction === "output" && device.gates.length + device.truthTables.length === 0;
      // A serial line stands at mark, some volts below ground.
      if (signal === "line" && isFree) return [`U1 | ${number} | -8.9 V`];
      return direction === "input" || isFree ? [`U1 | ${number} | 0.12 V`] : [];
    });
    const body =
      table("Diode check", "Ref | Pin | Reading", ...drops) +
      table("Logic levels", "Ref | Pin | Reading", ...levels);
    const { service, files } = await openWorld(logOf(boardOf(device), body));
    const found = files.flatMap(({ uri }) => service.findings(uri));
    expect(found.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
  },
);

test("there are enough of them, and most have readings to judge", () => {
  expect(devices.length).toBeGreaterThanOrEqual(250);
  const judged = devices.filter((device) =>
    [...device.pins.keys()].some((pin) => cleanDrop(device, pin, 0) !== undefined),
  );
  expect(judged.length).toBeGreaterThan(200);
});
