// Function and pins of the simple gates as their data sheets draw them, all from memory, and written here without
// regard to server/data: what the device files are held against.

/** "1 2 > 3": inputs and output of each gate. */
type Pinout = readonly string[];

const QUAD: Pinout = ["1 2 > 3", "4 5 > 6", "9 10 > 8", "12 13 > 11"];
const QUAD_OUTPUT_FIRST: Pinout = ["2 3 > 1", "5 6 > 4", "8 9 > 10", "11 12 > 13"];
const QUAD_CMOS: Pinout = ["1 2 > 3", "5 6 > 4", "8 9 > 10", "12 13 > 11"];
const TRIPLE: Pinout = ["1 2 13 > 12", "3 4 5 > 6", "9 10 11 > 8"];
const TRIPLE_CMOS: Pinout = ["1 2 8 > 9", "3 4 5 > 6", "11 12 13 > 10"];
const DUAL: Pinout = ["1 2 4 5 > 6", "9 10 12 13 > 8"];
const DUAL_CMOS: Pinout = ["2 3 4 5 > 1", "9 10 11 12 > 13"];
const HEX: Pinout = ["1 > 2", "3 > 4", "5 > 6", "9 > 8", "11 > 10", "13 > 12"];
const HEX_SHIFTER: Pinout = ["3 > 2", "5 > 4", "7 > 6", "9 > 10", "11 > 12", "14 > 15"];
const PERIPHERAL: Pinout = ["1 2 > 3", "6 7 > 5"];
const FOUR_DRIVERS: Pinout = ["3 > 2", "6 > 7", "11 > 9", "14 > 16"];
const FOUR_PREDRIVEN: Pinout = ["3 > 2", "6 > 8", "11 > 10", "15 > 16"];
const SEVEN_DRIVERS: Pinout = ["1 > 16", "2 > 15", "3 > 14", "4 > 13", "5 > 12", "6 > 11", "7 > 10"];
const EIGHT_DRIVERS: Pinout = [
  "1 > 18",
  "2 > 17",
  "3 > 16",
  "4 > 15",
  "5 > 14",
  "6 > 13",
  "7 > 12",
  "8 > 11",
];

type Bits = readonly boolean[];
const inverted = (fn: (bits: Bits) => boolean) => (bits: Bits) => !fn(bits);
const all = (bits: Bits): boolean => bits.every(Boolean);
const any = (bits: Bits): boolean => bits.some(Boolean);
const odd = (bits: Bits): boolean => bits.reduce((parity, bit) => parity !== bit, false);
const same = (bits: Bits): boolean => bits[0] === true;

export interface SheetGate {
  readonly inputs: readonly string[];
  readonly output: string;
  readonly gives: (bits: Bits) => boolean;
}

export interface SheetPart {
  readonly gates: readonly SheetGate[];
  /** The output can only pull low; a resistor has to make its high. */
  readonly open: boolean;
}

const parts = new Map<string, SheetPart>();

function add(ids: string, pinout: Pinout, gives: (bits: Bits) => boolean, open = false): void {
  const gates = pinout.map((line): SheetGate => {
    const [inputs = "", output = ""] = line.split(" > ");
    return { inputs: inputs.split(" "), output, gives };
  });
  for (const id of ids.split(" ")) {
    parts.set(id, { gates: [...(parts.get(id)?.gates ?? []), ...gates], open });
  }
}

add("7400 7437 74132", QUAD, inverted(all));
add("7403 7426 7438", QUAD, inverted(all), true);
add("7401", QUAD_OUTPUT_FIRST, inverted(all), true);
add("7402 7428", QUAD_OUTPUT_FIRST, inverted(any));
add("7433", QUAD_OUTPUT_FIRST, inverted(any), true);
add("7404 7414 4069 40106", HEX, inverted(same));
add("7405 7406 7416", HEX, inverted(same), true);
add("7407 7417", HEX, same, true);
add("7408", QUAD, all);
add("7409", QUAD, all, true);
add("7410", TRIPLE, inverted(all));
add("7412", TRIPLE, inverted(all), true);
add("7411", TRIPLE, all);
add("7415", TRIPLE, all, true);
add("7427", TRIPLE, inverted(any));
add("7413 7420 7440", DUAL, inverted(all));
add("7422", DUAL, inverted(all), true);
add("7421", DUAL, all);
add("7430", ["1 2 3 4 5 6 11 12 > 8"], inverted(all));
add("74133", ["1 2 3 4 5 6 7 10 11 12 13 14 15 > 9"], inverted(all));
add("74260", ["1 2 3 12 13 > 5", "4 8 9 10 11 > 6"], inverted(any));
add("7432", QUAD, any);
add("7486", QUAD, odd);
add("74136", QUAD, odd, true);
add("74386", QUAD_CMOS, odd);
add("74266", QUAD_CMOS, inverted(odd), true);
add("4001", QUAD_CMOS, inverted(any));
add("4002", DUAL_CMOS, inverted(any));
add("4011 4093", QUAD_CMOS, inverted(all));
add("4012", DUAL_CMOS, inverted(all));
add("4023", TRIPLE_CMOS, inverted(all));
add("4025", TRIPLE_CMOS, inverted(any));
add("4030 4070", QUAD_CMOS, odd);
add("4077", QUAD_CMOS, inverted(odd));
add("4049", HEX_SHIFTER, inverted(same));
add("4050", HEX_SHIFTER, same);
add("4068", ["2 3 4 5 9 10 11 12 > 13"], inverted(all));
add("4068", ["2 3 4 5 9 10 11 12 > 1"], all);
add("4071", QUAD_CMOS, any);
add("4072", DUAL_CMOS, any);
add("4073", TRIPLE_CMOS, all);
add("4075", TRIPLE_CMOS, any);
add("4081", QUAD_CMOS, all);
add("4082", DUAL_CMOS, all);
add("75451", PERIPHERAL, all, true);
add("75452", PERIPHERAL, inverted(all), true);
add("75453", PERIPHERAL, any, true);
add("75454", PERIPHERAL, inverted(any), true);
add("MC1488", ["2 > 3"], inverted(same));
add("MC1488", ["4 5 > 6", "9 10 > 8", "12 13 > 11"], inverted(all));
add("MC1489", ["1 > 3", "4 > 6", "10 > 8", "13 > 11"], inverted(same));
add("ULN2003 ULN2004", SEVEN_DRIVERS, inverted(same), true);
add("ULN2803 ULN2804", EIGHT_DRIVERS, inverted(same), true);

add("74128", QUAD_OUTPUT_FIRST, inverted(any));
add("74140", DUAL, inverted(all));
add("4000", ["3 4 5 > 6", "11 12 13 > 10"], inverted(any));
add("4000", ["8 > 9"], inverted(same));
add("4009", HEX_SHIFTER, inverted(same));
add("4010 4504", HEX_SHIFTER, same);
add("4041", ["3 > 1", "6 > 4", "10 > 8", "13 > 11"], same);
add("4041", ["3 > 2", "6 > 5", "10 > 9", "13 > 12"], inverted(same));
add("4078", ["2 3 4 5 9 10 11 12 > 13"], inverted(any));
add("4078", ["2 3 4 5 9 10 11 12 > 1"], any);
add("4572", ["2 > 1", "4 > 3", "10 > 9", "12 > 11"], inverted(same));
add("4572", ["6 7 > 5"], inverted(any));
add("4572", ["14 15 > 13"], inverted(all));
add("40107", PERIPHERAL, inverted(all), true);
add("75461 75471 UDN5711", PERIPHERAL, all, true);
add("75462 75472 UDN5712", PERIPHERAL, inverted(all), true);
add("75463 75473 UDN5713", PERIPHERAL, any, true);
add("75464 75474 UDN5714", PERIPHERAL, inverted(any), true);
add("ULN2001 ULN2002 SN75468 SN75469", SEVEN_DRIVERS, inverted(same), true);
add("ULN2801 ULN2802 ULN2805", EIGHT_DRIVERS, inverted(same), true);
add("ULN2064 ULN2065 ULN2066 ULN2067", FOUR_DRIVERS, inverted(same), true);
add("ULN2068 ULN2069 ULN2070 ULN2071", FOUR_PREDRIVEN, inverted(same), true);

export const SHEET_PARTS: ReadonlyMap<string, SheetPart> = parts;
