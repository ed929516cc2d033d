import { defined } from "../base/defined";
import { quantityOf } from "./quantity-rule";
import { array, type Data, isComplete, number, present, record, shapeMap, text, texts } from "./shape";
import { backup, clock, coil, reset } from "./shape-circuits";
import { bothWays, windowAround } from "./tolerance";
import type {
  Board,
  Expected,
  Matrix,
  MemoryPart,
  Modification,
  Part,
  PinRef,
  ProvingItem,
  Rail,
  RomImage,
  RomSet,
  SwitchBank,
  TestCode,
} from "./types";

/** A board from valid data; entries without what makes them usable are left out, the id and title may be "". */
export function shapeBoard(data: Data): Board {
  const era = record(data.era);
  const years = { from: number(era.from), to: number(era.to) };
  return defined({
    id: text(data.id) ?? "",
    title: text(data.title) ?? text(data.id) ?? "",
    maker: text(data.maker),
    source: text(data.source),
    era: isComplete(years) ? years : undefined,
    revisions: shapeMap(data.revisions, text),
    rails: shapeMap(data.rails, rail),
    parts: shapeMap(data.parts, part),
    nets: shapeMap(data.nets, (pins, name) => ({ name, pins: texts(pins).map(pinRef).filter(present) })),
    grounds: texts(data.grounds),
    circuits: shapeMap(data.circuits, (value, id) => {
      const { title, note } = record(value);
      return defined({ id, title: text(title) ?? id, note: text(note) });
    }),
    matrices: shapeMap(data.matrices, matrix),
    switchBanks: shapeMap(data["switch-banks"], switchBank),
    memory: array(data.memory).map(memoryPart).filter(present),
    romSets: shapeMap(data["rom-sets"], romSet),
    expected: array(data.expected).map(expected).filter(present),
    resets: array(data.resets).map(reset).filter(present),
    backups: array(data.backups).map(backup).filter(present),
    coils: array(data.coils).map(coil).filter(present),
    clocks: array(data.clocks).map(clock).filter(present),
    symptoms: shapeMap(data.symptoms, (value, id) => {
      const { title, shows, circuits, inputs, note } = record(value);
      return defined({
        id,
        title: text(title) ?? id,
        circuits: texts(circuits),
        inputs: inputs === undefined ? undefined : texts(inputs),
        shows: text(shows),
        note: text(note),
      });
    }),
    codes: data.codes === undefined ? undefined : shapeMap(data.codes, testCode),
    modifications: shapeMap(data.modifications, modification),
    proving: array(data.proving).map(provingItem).filter(present),
    cautions: texts(data.cautions),
  });
}

function testCode(value: unknown, code: string): TestCode {
  const { title, parts, circuits, pass, note } = record(value);
  return defined<TestCode>({
    code,
    title: text(title) ?? code,
    parts: texts(parts),
    circuits: texts(circuits),
    pass: pass === true ? true : undefined,
    note: text(note),
  });
}

/** `U14.7`: what stands before the dot is the part, what stands behind it the pin. */
export function pinRef(typed: string): PinRef | undefined {
  const dot = typed.indexOf(".");
  return dot > 0 && dot < typed.length - 1
    ? { ref: typed.slice(0, dot), pin: typed.slice(dot + 1) }
    : undefined;
}

function rail(value: unknown, name: string): Rail | undefined {
  const data = record(value);
  const needed = { nominal: text(data.nominal), tolerance: text(data.tolerance) };
  if (!isComplete(needed)) return undefined;
  return defined({
    name,
    ...needed,
    window: windowOf(needed),
    ripple: text(data.ripple),
    load: text(data.load),
    regulator: text(data.regulator),
    input: text(data.input),
    dropout: text(data.dropout),
    reservoir: text(data.reservoir),
    rectifier: rectifier(data.rectifier),
    mains: text(data.mains),
    net: text(data.net),
    testPoint: text(data["test-point"]),
    source: text(data.source),
  });
}

function windowOf({ nominal, tolerance }: { nominal: string; tolerance: string }): Rail["window"] {
  const volts = quantityOf(nominal)?.value;
  const off = bothWays(tolerance);
  return volts === undefined || !off ? undefined : windowAround(volts, off);
}

const rectifier = (value: unknown): Rail["rectifier"] =>
  value === "full-wave" || value === "half-wave" ? value : undefined;

function part(value: unknown, ref: string): Part {
  const data = record(value);
  return defined({
    ref,
    fits: texts(data.fits),
    socketed: data.socketed === true,
    device: text(data.device),
    value: text(data.value),
    package: text(data.package),
    circuit: text(data.circuit),
    location: text(data.location),
    revisions: Array.isArray(data.revisions) ? texts(data.revisions) : undefined,
    note: text(data.note),
  });
}

function matrix(value: unknown, id: string): Matrix | undefined {
  const data = record(value);
  if (data.kind !== "switch" && data.kind !== "lamp") return undefined;
  return defined({
    id,
    kind: data.kind,
    title: text(data.title) ?? id,
    rows: texts(data.rows),
    columns: texts(data.columns),
    cells: array(data.cells).map((row) => array(row).map((cell) => text(cell) ?? null)),
    reserved: array(data.reserved).flatMap((pair): [number, number][] => {
      const [row, column] = array(pair).map(number);
      return row === undefined || column === undefined ? [] : [[row, column]];
    }),
    circuit: text(data.circuit),
  });
}

function memoryPart(value: unknown): MemoryPart | undefined {
  const data = record(value);
  const ref = text(data.ref);
  const lines = array(data.data).map(number).filter(present);
  if (ref === undefined || lines.length === 0) return undefined;
  const [from, to] = [data.from, data.to].map((end) => Number.parseInt(text(end) ?? "", 16));
  return defined({ ref, data: lines, range: from! <= to! ? { from: from!, to: to! } : undefined });
}

function switchBank(value: unknown, ref: string): SwitchBank {
  const settings = array(record(value).settings).flatMap((item) => {
    const { title, switches, meaning } = record(item);
    const numbers = array(switches).map(number).filter(present);
    if (text(title) === undefined || numbers.length === 0) return [];
    // Sorted, because an object lists "10" and "11" before "00" and "01" however they were written.
    const patterns = [...shapeMap(meaning, text)].sort(([a], [b]) => (a < b ? -1 : 1));
    return [{ title: text(title) as string, switches: numbers, meaning: new Map(patterns) }];
  });
  return { ref, settings };
}

function romSet(value: unknown, id: string): RomSet {
  const data = record(value);
  return defined({
    id,
    title: text(data.title) ?? id,
    images: array(data.images).map(romImage).filter(present),
    revision: text(data.revision),
  });
}

function romImage(value: unknown): RomImage | undefined {
  const data = record(value);
  const ref = text(data.ref);
  if (ref === undefined) return undefined;
  // Hexadecimal is compared as text, so one case of letters.
  const hex = (check: unknown) => text(check)?.toLowerCase();
  return defined({
    ref,
    size: number(data.size),
    sum16: hex(data.sum16),
    crc32: hex(data.crc32),
    sha1: hex(data.sha1),
  });
}

function expected(value: unknown, index: number): Expected | undefined {
  const data = record(value);
  const needed = {
    procedure: text(data.procedure),
    low: text(data.low),
    high: text(data.high),
    source: text(data.source),
  };
  if (!isComplete(needed)) return undefined;
  return defined({
    ...needed,
    index,
    ref: text(data.ref),
    pin: text(data.pin),
    rail: text(data.rail),
  });
}

function modification(value: unknown, id: string): Modification {
  const data = record(value);
  return {
    id,
    title: text(data.title) ?? id,
    steps: texts(data.steps),
    parts: texts(data.parts),
    defeats: texts(data.defeats),
    requires: texts(data.requires),
    conflicts: texts(data.conflicts),
    revisions: texts(data.revisions),
  };
}

function provingItem(value: unknown): ProvingItem | undefined {
  const data = record(value);
  const id = text(data.id);
  const procedure = text(data.procedure);
  if (id === undefined || procedure === undefined) return undefined;
  return defined({ id, procedure, title: text(data.title) ?? id, matrix: text(data.matrix) });
}
