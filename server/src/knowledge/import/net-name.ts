// What the name of a net says of a supply. The ways of writing are from memory.

export interface NamedSupply {
  /** Without the sheets it is on: "+12V" for "/power/+12V". */
  readonly name: string;
  /** Volts. */
  readonly nominal: number;
  /** Words in it say that no regulator holds it. */
  readonly unregulated: boolean;
}

/** Words behind a voltage that leave it a supply; others make it a signal, such as 5V_OK. */
const SUPPLY_WORDS =
  "A|D|F|P|S|SB|ANA|ANALOG|ANALOGUE|DIG|DIGITAL|LOGIC|CPU|IO|MAIN|SW|SWITCHED|FUSED|REG|USB|BUS|EXT|IN|OUT|RAW|UNREG|UNREGULATED|COIL|COILS|SOL|SOLENOID|SOLENOIDS|LAMP|LAMPS|MOTOR|RELAY|RELAYS|BULK";
const UNREGULATED = /^(?:EXT|IN|RAW|UNREG|UNREGULATED|COILS?|SOL|SOLENOIDS?|LAMPS?|MOTOR|RELAYS?|BULK)$/i;
const VOLTAGE = new RegExp(
  `^(?:V(?:CC|DD|AA)?[_-]?)?([+-]|[PN](?=\\d))?(\\d{1,3})(?:[.,](\\d{1,2}))?V(\\d{1,2})?(?:DC)?(?:[_ -]?(${SUPPLY_WORDS})\\d?)?$`,
  "i",
);
const BARE = /^([+-])(\d{1,3})(?:[.,](\d{1,2}))?$/;
/** More is no rail of such a board. */
const MOST_VOLTS = 400;

/** The last name of a path of sheets: "VCC" for "/power/VCC". */
export const lastName = (net: string): string => net.slice(net.lastIndexOf("/") + 1).trim();

/** The voltage that a name says outright: "+5V", "-12V", "+3V3", "12V_RAW", "+5". */
export function voltageNamed(net: string): NamedSupply | undefined {
  const name = lastName(net);
  const [, sign = "", whole = "", behind = "", letter = "", word = ""] =
    VOLTAGE.exec(name) ?? BARE.exec(name) ?? [];
  const size = Number(`${whole || 0}.${behind || letter || 0}`);
  if (!(size > 0) || size > MOST_VOLTS || (behind !== "" && letter !== "")) return undefined;
  return { name, nominal: /[-n]/i.test(sign) ? -size : size, unregulated: UNREGULATED.test(word) };
}

/** GND, AGND, GNDA, GND1, 0V and VSS. Earth and chassis are another thing. */
export const isGroundName = (net: string): boolean =>
  /^(?:[ADPS]?GND[ADPS]?\d?|GND(?:PWR|REF)|GROUND|0V[AD]?|VSS[AD]?)$/i.test(lastName(net));

/** VCC and its like: a supply whose voltage the name does not say. VPP is as often a signal. */
export const isSupplyName = (net: string): boolean => /^[+-]?V(?:CC|DD|EE|BB|AA)\d?$/i.test(lastName(net));
