export {
  diagnosisOf,
  evidenceIn,
  type LogDiagnosis,
  logDiagnosisSteps,
} from "../../../review/diagnosis/of-log";
export {
  type DiagnosisReport,
  diagnosesJson,
  diagnosisJson,
  diagnosisReport,
  diagnosisText,
} from "./as-text";
export { symptomSuspects } from "./markdown";
export { cautionFor, type SuspectsSection, writeSuspects } from "./section";
export {
  type ListedSuspect,
  listedSuspect,
  rankedFor,
  roughShare,
  type Share,
  type Story,
  shareText,
  storyOf,
  storyText,
  type WeighedSuspect,
  waitingText,
  weighed,
} from "./suspects";
