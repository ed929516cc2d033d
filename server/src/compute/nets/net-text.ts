import type { Net, PinRef } from "../../knowledge/types";

/** Members of a net named in a sentence; a bus or a ground has more than anyone reads there. */
const NAMED = 6;

/** Every pin of a net in the board file's order, "U14.2". */
export const memberNames = (net: Net): string[] => net.pins.map(({ ref, pin }) => `${ref}.${pin}`);

/** "U14 pin 2". */
export const pinText = ({ ref, pin }: PinRef): string => `${ref} pin ${pin}`;

/** What else is on the nets of a chip's pins, each once. */
export function otherMembers(
  ref: string,
  pins: readonly string[],
  membersAt: ((pin: string) => readonly PinRef[]) | undefined,
): PinRef[] {
  const others = new Map<string, PinRef>();
  for (const member of pins.flatMap((pin) => membersAt?.(pin) ?? []))
    if (member.ref !== ref || !pins.includes(member.pin)) others.set(`${member.ref}.${member.pin}`, member);
  return [...others.values()];
}

/** "U14.2, U12.15, CN3.4": the first few names, and how many more there are. */
export function someOf(names: readonly string[], most = NAMED): string {
  // One more is as short as "and 1 more".
  if (names.length <= most + 1) return names.join(", ");
  return `${names.slice(0, most).join(", ")} and ${names.length - most} more`;
}

/** Of a net with more pins than this, a ground or a supply, a few names say nothing. */
const MANY = 24;

/** "net ROW_1 (U14.2, U12.15, CN3.4)", inside a sentence; "net GND (102 pins)". */
export const netText = (net: Net): string =>
  `net ${net.name} (${net.pins.length > MANY ? `${net.pins.length} pins` : someOf(memberNames(net))})`;
