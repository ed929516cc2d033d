import { defined } from "../base/defined";
import {
  array,
  type Data,
  isComplete,
  number,
  present,
  record,
  shapeMap,
  text,
  texts,
  window,
} from "./shape";
import { readTruthRow } from "./truth-row";
import {
  COLUMN_ROLES,
  type ColumnRole,
  type ColumnSpec,
  DEVICE_KINDS,
  type Device,
  type DevicePin,
  type Family,
  type Gate,
  PIN_DIRECTIONS,
  PIN_SIGNALS,
  type Procedure,
  type Substitute,
  type TruthTable,
} from "./types";

const oneOf = <T extends string>(known: readonly T[], value: unknown): T | undefined =>
  known.find((word) => word === value);

/** A device from valid data; undefined without an id, since nothing could name it. */
export function shapeDevice(data: Data): Device | undefined {
  const id = text(data.id);
  if (id === undefined) return undefined;
  const pins = shapeMap(data.pins, pin);
  const { name, pins: count } = record(data.package);
  return defined({
    id,
    title: text(data.title) ?? id,
    kind: oneOf(DEVICE_KINDS, data.kind) ?? "other",
    families: texts(data.families),
    aliases: texts(data.aliases),
    package: { name: text(name) ?? "", pins: number(count) ?? pins.size },
    pins,
    gates: array(data.gates).map(gate).filter(present),
    truthTables: array(data["truth-tables"]).map(truthTable).filter(present),
    limits: shapeMap(data.limits, window),
    substitutes: array(data.substitutes).flatMap((value): Substitute[] => {
      const fields = { part: text(record(value).part), caution: text(record(value).caution) };
      return isComplete(fields) ? [fields] : [];
    }),
    cautions: texts(data.cautions),
    source: text(data.source) ?? "",
    note: text(data.note),
  });
}

function pin(value: unknown, key: string): DevicePin | undefined {
  const data = record(value);
  const direction = oneOf(PIN_DIRECTIONS, data.direction);
  if (!direction) return undefined;
  return defined({
    number: key,
    name: text(data.name) ?? key,
    direction,
    unit: text(data.unit),
    signal: oneOf(PIN_SIGNALS, data.signal),
    fed: text(data.fed),
    share: share(data.share),
    note: text(data.note),
  });
}

function share(value: unknown): DevicePin["share"] {
  const [low, high] = array(value).map(number);
  return low !== undefined && high !== undefined && low < high ? [low, high] : undefined;
}

function gate(value: unknown): Gate | undefined {
  const data = record(value);
  const fields = { name: text(data.name), function: text(data.function) };
  if (!isComplete(fields)) return undefined;
  return { ...fields, inputs: texts(data.inputs), outputs: texts(data.outputs) };
}

/** Rows that cannot be read or do not fit the pins are left out: what they say is then not judged. */
function truthTable(value: unknown): TruthTable | undefined {
  const data = record(value);
  const name = text(data.name);
  if (name === undefined) return undefined;
  const inputs = texts(data.inputs);
  const outputs = texts(data.outputs);
  const rows = texts(data.rows).flatMap((line) => {
    const read = readTruthRow(line);
    if (!read.ok) return [];
    const { row } = read;
    return row.inputs.length === inputs.length && row.outputs.length === outputs.length ? [row] : [];
  });
  return { name, inputs, outputs, rows };
}

export function shapeFamily(data: Data): Family | undefined {
  const id = text(data.id);
  if (id === undefined) return undefined;
  return defined({
    id,
    title: text(data.title) ?? id,
    source: text(data.source) ?? "",
    letters: text(data.letters),
    supply: window(data.supply),
    diode: diode(record(data.diode)),
    levels: levels(record(data.levels)),
  });
}

function diode(data: Data): Family["diode"] {
  const needed = { signal: window(data.signal), source: text(data.source) };
  return isComplete(needed) ? defined({ ...needed, supply: window(data.supply) }) : undefined;
}

function levels(data: Data): Family["levels"] {
  const needed = {
    vih: text(data.vih),
    vil: text(data.vil),
    voh: text(data.voh),
    vol: text(data.vol),
    source: text(data.source),
  };
  return isComplete(needed) ? needed : undefined;
}

export function shapeProcedure(data: Data): Procedure | undefined {
  const id = text(data.id);
  if (id === undefined) return undefined;
  const meter = record(data.meter);
  const setTo = text(meter.function);
  return defined({
    id,
    title: text(data.title) ?? id,
    aliases: texts(data.aliases),
    alone: texts(data.alone),
    powered: oneOf(["unpowered", "powered", "either"], data.powered) ?? "either",
    columns: array(data.columns).map(column).filter(present),
    purpose: text(data.purpose) ?? "",
    setup: texts(data.setup),
    steps: texts(data.steps),
    interpret: texts(data.interpret),
    cannotTell: texts(data["cannot-tell"]),
    cautions: texts(data.cautions),
    source: text(data.source) ?? "",
    wide: wide(record(data.wide)),
    meter:
      setTo === undefined
        ? undefined
        : defined<NonNullable<Procedure["meter"]>>({
            function: setTo,
            testVoltage: text(meter["test-voltage"]),
          }),
  });
}

function wide(data: Data): Procedure["wide"] {
  const fields = {
    rows: oneOf<ColumnRole>(COLUMN_ROLES, data.rows),
    columns: oneOf<ColumnRole>(COLUMN_ROLES, data.columns),
    cells: text(data.cells),
  };
  return isComplete(fields) ? fields : undefined;
}

function column(value: unknown): ColumnSpec | undefined {
  const data = record(value);
  const role = oneOf<ColumnRole>(COLUMN_ROLES, data.role);
  const headers = texts(data.headers);
  if (!role || headers.length === 0) return undefined;
  return defined({
    role,
    headers,
    required: data.required === true,
    measure: text(data.measure),
    quantity: text(data.quantity),
    unit: text(data.unit),
    signed: typeof data.signed === "boolean" ? data.signed : undefined,
  });
}
