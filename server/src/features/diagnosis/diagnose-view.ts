// What may be wrong with the board of a log. Computed only where somebody asks, and not again while what the log
// says of the board stays the same.
import { type Diagnosis, diagnose } from "../../analysis/diagnosis";
import { type FromLog, fromLog } from "../../analysis/diagnosis/from-log";
import { type Advice, nextReading } from "../../analysis/diagnosis/next-reading";
import type { Finding } from "../../analysis/diagnosis/types";
import type { LogView } from "../view";

export interface ViewDiagnosis {
  readonly log: FromLog;
  readonly diagnosis: Diagnosis;
  readonly advice: Advice;
  /** Those of `log` one by one, as the diagnosis has them: it may be older than the log. */
  readonly diagnosed: readonly Finding[];
}

/** Somebody waits for the answer; what more nodes would find is too unlikely to be shown. */
const MOST_NODES = 1000;

const logs = new WeakMap<LogView, { readonly log: FromLog | undefined }>();
/** By what stays while a log is typed in; the key says what the diagnosis rests on. */
const diagnoses = new WeakMap<
  LogView["ctx"],
  { readonly key: string; readonly made: Omit<ViewDiagnosis, "log"> }
>();

/** What the log holds for a diagnosis, without making one; undefined without a board. */
export function evidenceIn(view: LogView): FromLog | undefined {
  const known = logs.get(view);
  if (known) return known.log;
  const log = fromLog(view);
  logs.set(view, { log });
  return log;
}

/**
 * The diagnosis of a log as it stands; undefined without a board, and where `cancelled` said so before it was ready.
 * A cancelled one is not kept.
 */
export function diagnosisOf(view: LogView, cancelled?: () => boolean): ViewDiagnosis | undefined {
  const log = evidenceIn(view);
  if (!log) return undefined;
  const { board: _board, deviceOf: _deviceOf, ...rest } = log.input;
  const key = JSON.stringify([rest, log.powered]);
  const known = diagnoses.get(view.ctx);
  if (known?.key === key) return { log, ...known.made };
  const diagnosis = diagnose(log.input, { maxNodes: MOST_NODES, ...(cancelled ? { cancelled } : {}) });
  if (!diagnosis.ok || cancelled?.()) return undefined;
  const advice = nextReading(log.input, diagnosis, { powered: log.powered });
  if (cancelled?.()) return undefined;
  const made = { diagnosis, advice, diagnosed: log.input.findings };
  diagnoses.set(view.ctx, { key, made });
  return { log, ...made };
}
