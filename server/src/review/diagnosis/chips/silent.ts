// A chip whose inputs move and whose outputs all stand still: a decoder that hears and says nothing, a multiplexer, a buffer. It is
// dead, or not fed; where something was seen to hold it back it does as it is told.

import type { SignFinding } from "../../../compute/diagnosis/types";
import type { Board, Device, DevicePin, PinRef } from "../../../knowledge/types";
import type { LocatedObservation } from "../observation";

/** Lines both ways that make a port; inputs that move and outputs that do not, at least, and of its outputs how many have to be known. */
const LEAST = { port: 4, moving: 2, movingForOne: 4, still: 2, share: 0.5 } as const;
const KINDS: ReadonlySet<string> = new Set(["logic", "interface"]);
const ENABLE = /^[/~]?\d?(?:E|EN|G|OE|CS|CE|S|STB|STROBE|INH|INHIBIT)\d*[A-C]?$/i;
const CLEARS = /^[/~]?\d?(?:CLR|CLEAR|MR|R|RES|RESET|PRE|PR|SET|LD|LOAD|PE|LT|BI|BI\/RBO)\d*$/i;
const CLOCKS = /^[/~]?\d?(?:CLK|CK|CP|CLOCK|LE|C|\d-\dEN)\d*$/i;

export function silentChips(
  all: readonly LocatedObservation[],
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): LocatedObservation[] {
  const byChip = new Map<string, LocatedObservation[]>();
  for (const one of all)
    if (one.level) byChip.set(one.level.ref, [...(byChip.get(one.level.ref) ?? []), one]);
  return [...byChip].flatMap(([ref, seen]): LocatedObservation[] => {
    const device = deviceOf(board.parts.get(ref)?.device ?? "");
    const both = [...(device?.pins.values() ?? [])].filter(({ direction }) => direction === "bidirectional");
    const isPort = both.length >= LEAST.port;
    if (!device || !KINDS.has(device.kind)) return [];
    const at = seen.flatMap((one) => {
      const pin = device.pins.get(one.level?.pin ?? "");
      return pin && one.level ? [{ one, pin, state: one.level.state }] : [];
    });
    // Of what a port puts out only its sound has to come whatever the program does with its lines.
    const isOut = (pin: DevicePin): boolean => isOutput(pin) && (!isPort || pin.signal === "analogue");
    const port = isPort ? stillPort(ref, at) : undefined;
    if (port) return [port];
    const outputs = at.filter(({ pin }) => isOut(pin));
    const [first] = outputs;
    const moving = at.filter(({ pin, state }) => pin.direction === "input" && state === "pulsing");
    const wired = [...device.pins.values()].filter(
      (pin) => isOut(pin) && [...board.nets.values()].some(({ pins }) => isAt(pins, ref, pin.number)),
    );
    const numbers = new Set(outputs.map(({ pin }) => pin.number));
    const least = Math.min(LEAST.still, Math.max(1, wired.length));
    // One output alone may stand by chance where little moves before it.
    const enough = wired.length === 1 ? LEAST.movingForOne : LEAST.moving;
    // An output that only pulls floats where it never does.
    const isStill = outputs.every(
      ({ state, pin }) =>
        state === "low" || state === "high" || (state === "floating" && pin.direction === "open-collector"),
    );
    if (!first || !isStill || numbers.size < Math.max(least, LEAST.share * wired.length)) return [];
    if (new Set(moving.map(({ pin }) => pin.number)).size < enough) return [];
    if (isHeldBack(at, device, moving) || mayPass(at, device, numbers)) return [];
    const level = new Set(outputs.map(({ state }) => state));
    const [state] = level;
    if (level.size > 1 || state === undefined) return [];
    return [
      {
        ...first.one,
        key: `silent chip ${ref}`.toUpperCase(),
        what: `the outputs of ${ref}`,
        refs: [ref.toUpperCase()],
        finding: {
          kind: "sign",
          sign: "chip-silent",
          ref,
          refs: [ref],
          state: state === "low" ? "low" : "high",
          of: `the outputs of ${ref}`,
          says: `All outputs of ${ref} that were read stand ${state}, while its inputs move.`,
        } satisfies SignFinding,
      },
    ];
  });
}

/** Lines of a port that were read, and what reaches it meanwhile, at least; common practice, no source. */
const PORT = { lines: 6, moving: 4 } as const;
const PORT_LINE = /^P[ABC]\d$/i;
const SELECT = /^[/~]?(?:CS|CE|RS)\d?$/i;

interface SeenPin {
  readonly one: LocatedObservation;
  readonly pin: DevicePin;
  readonly state: string;
}

/** Every line of a port as a reset leaves it, while the chip is selected, clocked and written to. */
function stillPort(ref: string, at: readonly SeenPin[]): LocatedObservation | undefined {
  const lines = at.filter(({ pin }) => PORT_LINE.test(pin.name));
  const moving = at.filter(({ pin, state }) => !PORT_LINE.test(pin.name) && state === "pulsing");
  const [first] = lines;
  const isReset = at.some(
    ({ pin, state }) =>
      CLEARS.test(pin.name.replace(/^[/~]/, "")) && pin.direction === "input" && state === "low",
  );
  const isIdle = lines.every(({ state }) => state === "high" || state === "floating");
  if (!first || isReset || !isIdle || lines.length < PORT.lines || moving.length < PORT.moving)
    return undefined;
  if (!moving.some(({ pin }) => SELECT.test(pin.name))) return undefined;
  return {
    ...first.one,
    key: `silent chip ${ref}`.toUpperCase(),
    what: `the lines of ${ref}`,
    refs: [ref.toUpperCase()],
    finding: {
      kind: "sign",
      sign: "chip-silent",
      ref,
      refs: [ref],
      state: "high",
      of: `the lines of ${ref}`,
      says: `All ${lines.length} lines of ${ref} that were read stand as a reset leaves them, while it is selected and spoken to.`,
    } satisfies SignFinding,
  };
}

const isAt = (pins: readonly PinRef[], ref: string, pin: string): boolean =>
  pins.some((one) => one.ref === ref && one.pin === pin);

const isOutput = ({ direction }: DevicePin): boolean =>
  direction === "output" || direction === "three-state" || direction === "open-collector";

/** What its outputs pass on was read, and stands still itself at more of it than moves: it may be that which it was told to pass. */
function mayPass(
  at: readonly { readonly pin: DevicePin; readonly state: string }[],
  { truthTables }: Device,
  outputs: ReadonlySet<string>,
): boolean {
  const passed = new Set(
    truthTables
      .filter((table) => table.outputs.some((pin) => outputs.has(pin)))
      .flatMap(({ inputs, rows }) =>
        inputs.filter((_, i) =>
          rows.some(({ inputs: cells }) => {
            const cell = cells[i];
            return cell?.kind === "value" && cell.letters !== 0;
          }),
        ),
      ),
  );
  const seen = at.filter(({ pin }) => passed.has(pin.number));
  const moving = seen.filter(({ state }) => state === "pulsing");
  return seen.length > 0 && moving.length < seen.length - moving.length;
}

/** An enable or a clear that was seen at the level that keeps it still, or a clock of it that does not run. */
function isHeldBack(
  at: readonly { readonly pin: DevicePin; readonly state: string }[],
  device: Device,
  moving: readonly { readonly pin: DevicePin }[],
): boolean {
  const rests = at.some(({ pin, state }) => {
    const isLow = /^[/~]/.test(pin.name);
    if (pin.direction !== "input" && pin.direction !== "bidirectional") return false;
    if (ENABLE.test(pin.name)) return state === (isLow ? "high" : "low");
    return CLEARS.test(pin.name) && state === (isLow ? "low" : "high");
  });
  const clocks = [...device.pins.values()].filter(
    ({ name, direction }) => direction === "input" && CLOCKS.test(name),
  );
  return rests || (clocks.length > 0 && !moving.some(({ pin }) => clocks.includes(pin)));
}
