// What an assistant may ask of a log, so that it answers from the readings and need not guess: bounded, and read-only.
export { type JudgedTable, judgeTyped, type TypedReading } from "./judge-typed";
export { type AssistantNextReading, assistantNextReading } from "./next-reading";
export {
  type AssistantReading,
  type AssistantReadings,
  assistantReadings,
} from "./readings";
