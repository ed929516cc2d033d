export { type DiagnosisReport, diagnosisJson, diagnosisReport, diagnosisText } from "./as-text";
export { diagnosisOf, evidenceIn, type ViewDiagnosis } from "./diagnose-view";
export { symptomSuspects } from "./markdown";
export { cautionFor, type Written, writeSuspects } from "./section";
export {
  type ListedSuspect,
  listed,
  rankedFor,
  type Story,
  shareText,
  storyOf,
  storyText,
  waitingText,
} from "./suspects";
