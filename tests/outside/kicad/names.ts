// Which symbol stands for which of our devices.
import { SYMBOL_OF } from "./drawn";

/** Library and symbol names for devices whose symbol does not simply carry the device's number. */
const NAMED: Readonly<Record<string, readonly [library: string, symbol: string]>> = {
  "6800": ["CPU_NXP_6800", "MC6800"],
  "6802": ["CPU_NXP_6800", "MC6802"],
  "6809": ["CPU_NXP_6800", "MC6809"],
  "6809E": ["CPU_NXP_6800", "MC6809E"],
  Z80: ["CPU", "Z80CPU"],
  "8039": ["MCU_Intel", "8039"],
  "8080A": ["MCU_Intel", "8080A"],
  "2764": ["Memory_EPROM", "2764"],
  "27128": ["Memory_EPROM", "27128"],
  "27256": ["Memory_EPROM", "27256"],
  "27512": ["Memory_EPROM", "27512"],
  "62256": ["Memory_RAM", "CY62256-70PC"],
  "6821": ["Interface", "6821"],
  "6850": ["Interface_UART", "MC6850"],
  "8255": ["Interface", "8255"],
  "8253": ["Timer", "8253"],
  "AY-3-8910": ["Audio", "YM2149"],
  ULN2003: ["Transistor_Array", "ULN2003"],
  ULN2004: ["Transistor_Array", "ULN2004"],
  ULN2803: ["Transistor_Array", "ULN2803A"],
  ULN2804: ["Transistor_Array", "ULN2804A"],
  "4N25": ["Isolator", "4N25"],
  "4N35": ["Isolator", "4N35"],
  "555": ["Timer", "NE555P"],
  "556": ["Timer", "NE556"],
  "741": ["Amplifier_Operational", "LM741"],
  "1458": ["Amplifier_Operational", "RC4558"],
  LM311: ["Comparator", "LM311"],
  LM324: ["Amplifier_Operational", "LM324"],
  LM339: ["Comparator", "LM339"],
  LM358: ["Amplifier_Operational", "LM358"],
  LM386: ["Amplifier_Audio", "LM386"],
  LM393: ["Comparator", "LM393"],
  TL084: ["Amplifier_Operational", "TL084"],
  "7805": ["Regulator_Linear", "LM7805_TO220"],
  "7806": ["Regulator_Linear", "LM7806_TO220"],
  "7808": ["Regulator_Linear", "LM7808_TO220"],
  "7812": ["Regulator_Linear", "LM7812_TO220"],
  "7815": ["Regulator_Linear", "LM7815_TO220"],
  "7824": ["Regulator_Linear", "LM7824_TO220"],
  "7905": ["Regulator_Linear", "LM7905_TO220"],
  "7912": ["Regulator_Linear", "LM7912_TO220"],
  "7915": ["Regulator_Linear", "LM7915_TO220"],
  "78L05": ["Regulator_Linear", "L78L05_TO92"],
  "78L12": ["Regulator_Linear", "L78L12_TO92"],
  LM317: ["Regulator_Linear", "LM317_TO-220"],
  LM337: ["Regulator_Linear", "LM337_TO220"],
  "2N2222": ["Transistor_BJT", "PN2222A"],
  "2N3055": ["Transistor_BJT", "2N3055"],
  "2N3904": ["Transistor_BJT", "2N3904"],
  "2N3906": ["Transistor_BJT", "2N3906"],
  "2N7000": ["Transistor_FET", "2N7000"],
  BC547: ["Transistor_BJT", "BC547"],
  BC557: ["Transistor_BJT", "BC557"],
  MJ2955: ["Transistor_BJT", "MJ2955"],
  MPSA42: ["Transistor_BJT", "MPSA42"],
  MPSA92: ["Transistor_BJT", "MPSA92"],
  TIP41: ["Transistor_BJT", "TIP41"],
  TIP42: ["Transistor_BJT", "TIP42"],
  TIP120: ["Transistor_BJT", "TIP120"],
  TIP122: ["Transistor_BJT", "TIP122"],
  TIP125: ["Transistor_BJT", "TIP125"],
  TIP127: ["Transistor_BJT", "TIP127"],
  "1N4001": ["Diode", "1N4001"],
  "1N4002": ["Diode", "1N4002"],
  "1N4004": ["Diode", "1N4004"],
  "1N4007": ["Diode", "1N4007"],
  "1N4148": ["Diode", "1N4148"],
  "1N5401": ["Diode", "1N5401"],
  "1N5404": ["Diode", "1N5404"],
  "1N5817": ["Diode", "1N5817"],
  "1N5819": ["Diode", "1N5819"],
  "1N914": ["Diode", "1N914"],
  LED: ["Device", "LED"],
  zener: ["Device", "D_Zener"],
  crystal: ["Device", "Crystal"],
  "resistor-sip-bussed-9": ["Device", "R_Network08"],
  "resistor-sip-isolated-8": ["Device", "R_Pack04_SIP"],
  "resistor-dip-isolated-14": ["Device", "R_Pack07"],
  "resistor-dip-isolated-16": ["Device", "R_Pack08"],
  "dip-switch-4": ["Switch", "SW_DIP_x04"],
  "dip-switch-7": ["Switch", "SW_DIP_x07"],
  "dip-switch-8": ["Switch", "SW_DIP_x08"],
  "dip-switch-10": ["Switch", "SW_DIP_x10"],
  "seven-segment-anode": ["Display_Character", "LTS-6960HR"],
  "seven-segment-cathode": ["Display_Character", "LTS-6980HR"],
  MAN72: ["Display_Character", "MAN72A"],
  MAN74: ["Display_Character", "MAN74A"],
  // The library's 74LS54 carries the pins of the standard part; our 74LS54 is in the list of the uncompared.
  "7454": ["74xx", "74LS54"],
};

/** Candidates in the order tried: `[library, symbol]`. The LS part stands for the whole number where it is drawn. */
export function candidates(id: string): (readonly [library: string, symbol: string])[] {
  const named = NAMED[id] ?? SYMBOL_OF.get(id);
  if (named !== undefined) return [named];
  // One symbol stands for a whole row of zener diodes.
  if (/^1N47(?:2[89]|[345]\d|6[0-4])$/.test(id)) return [["Diode", "1N47xxA"]];
  if (/^1N53\d\d$/.test(id)) return [["Diode", "1N53xxB"]];
  const ttl = /^74(\d+)$/.exec(id)?.[1];
  if (ttl !== undefined) return ["LS", "", "HC", "HCT"].map((letters) => ["74xx", `74${letters}${ttl}`]);
  if (/^74LS\d+$/.test(id)) return [["74xx", id]];
  if (/^4\d{3,4}$/.test(id)) {
    return [
      ["4xxx", id],
      ["4xxx", `HEF${id}B`],
    ];
  }
  return [];
}
