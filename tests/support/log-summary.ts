// What is remembered of a closed log, with nothing in it but what a test says.
import type { LogSummary } from "../../server/src/log/summary";

export const logSummary = (uri: string, more: Partial<LogSummary> = {}): LogSummary => ({
  uri,
  symptoms: [],
  work: [],
  fitted: [],
  tables: [],
  proving: [],
  stated: [],
  ...more,
});
