import { idOf } from "./board-file";
import { scalarText } from "./board-file/render";
import { packagePins } from "./package-pins";

/** Pins of the cases that chips of such boards come in; one is begun with no fewer than were read. */
const CASES = [8, 14, 16, 18, 20, 22, 24, 28, 40, 48, 64];

/** How many pins a part has by its case ("DIP-14"), else the smallest case that has the pin read. */
export function pinsOfCase(box: string | undefined, highest: number): number {
  const said = packagePins(box ?? "") ?? 0;
  if (said >= Math.max(highest, 2) && said <= 200) return said;
  return CASES.find((pins) => pins >= highest) ?? Math.min(Math.max(highest, 1), 200);
}

/**
 * A device file that loads with no problem and knows nothing yet but how many pins there are: whoever has the data sheet
 * goes on from here. Until then every pin is one that nothing is asked of.
 */
export function beginDevice(number: string, box: string | undefined, pins: number): string {
  const lines = Array.from(
    { length: pins },
    (_, i) => `  ${i + 1}: { name: "${i + 1}", direction: passive }`,
  );
  const id = idOf(number);
  const name = box ?? (pins >= 8 ? `DIP-${pins}` : `${pins} legs`);
  return [
    "mendlog-device: 1",
    `id: ${scalarText(id)}`,
    `title: ${scalarText(number)} # what it is, such as Hex inverter`,
    "kind: other # logic, memory, processor, interface, analog, transistor, regulator, diode",
    "families: []",
    ...(id === number ? [] : [`aliases: [${scalarText(number)}]`]),
    `package: { name: ${scalarText(name)}, pins: ${pins} }`,
    "pins: # of each its name and its direction: input, output, three-state, open-collector, supply, ground and so on",
    ...lines,
    "source: to be filled in, by the data sheet",
    "",
  ].join("\n");
}
