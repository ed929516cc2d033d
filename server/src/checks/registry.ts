import almostATable from "./almost-a-table";
import batteryLeftByCorrosion from "./battery-left-by-corrosion";
import boardNotNamed from "./board-not-named";
import cellsBeyondHeader from "./cells-beyond-header";
import type { Check } from "./check";
import checkFailed from "./check-failed";
import coilOverload from "./coil-overload";
import columnNotRead from "./column-not-read";
import comebackNotLinked from "./comeback-not-linked";
import comebackUnknown from "./comeback-unknown";
import dateCodeDoubtful from "./date-code-doubtful";
import datesOutOfOrder from "./dates-out-of-order";
import diodeOutOfWindow from "./diode-out-of-window";
import duplicateId from "./duplicate-id";
import duplicateReading from "./duplicate-reading";
import frontMatterMalformed from "./front-matter-malformed";
import headingNamesSeveral from "./heading-names-several";
import impossibleValue from "./impossible-value";
import junctionDisproved from "./junction-disproved";
import knowledgeFileInvalid from "./knowledge-file-invalid";
import levelUndefined from "./level-undefined";
import likePinOutlier from "./like-pin-outlier";
import logicContradiction from "./logic-contradiction";
import matrixCrossingToClear from "./matrix-crossing-to-clear";
import matrixDead from "./matrix-dead";
import matrixLineUnknown from "./matrix-line-unknown";
import matrixPhantom from "./matrix-phantom";
import matrixReservedExercised from "./matrix-reserved-exercised";
import matrixShorted from "./matrix-shorted";
import matrixStuck from "./matrix-stuck";
import matrixUnproven from "./matrix-unproven";
import memoryChipSuspect from "./memory-chip-suspect";
import modificationConflicting from "./modification-conflicting";
import modificationIncomplete from "./modification-incomplete";
import modificationNotForRevision from "./modification-not-for-revision";
import netDisagreement from "./net-disagreement";
import notInBoardFile from "./not-in-board-file";
import numberNotInLibrary from "./number-not-in-library";
import outsideExpected from "./outside-expected";
import packageDiffers from "./package-differs";
import partDiffersFromBoard from "./part-differs-from-board";
import partDoesNotFit from "./part-does-not-fit";
import partsListSection from "./parts-list-section";
import passiveOutOfTolerance from "./passive-out-of-tolerance";
import pinOutsidePackage from "./pin-outside-package";
import pinShorted from "./pin-shorted";
import railOutOfTolerance from "./rail-out-of-tolerance";
import railShorted from "./rail-shorted";
import removedAndNotReplaced from "./removed-and-not-replaced";
import replacedNotRetested from "./replaced-not-retested";
import returnedUnproven from "./returned-unproven";
import romImageDiffers from "./rom-image-differs";
import romImageUnreadable from "./rom-image-unreadable";
import romSetDiffers from "./rom-set-differs";
import romUnidentified from "./rom-unidentified";
import safetyInputDefeated from "./safety-input-defeated";
import sectionNotRead from "./section-not-read";
import settingsUndefined from "./settings-undefined";
import severalPins from "./several-pins";
import sharedNetFault from "./shared-net-fault";
import socketWrongSize from "./socket-wrong-size";
import stageAheadOfEvidence from "./stage-ahead-of-evidence";
import statedTwice from "./stated-twice";
import textInTable from "./text-in-table";
import unknownBoard from "./unknown-board";
import unknownDesignator from "./unknown-designator";
import unknownDevice from "./unknown-device";
import unknownHeading from "./unknown-heading";
import unknownMeter from "./unknown-meter";
import unknownSymptom from "./unknown-symptom";
import unreadableValue from "./unreadable-value";
import unusedSuppression from "./unused-suppression";
import wrongUnit from "./wrong-unit";

/** Every check there is, in the order they are listed to people: the file first, then places, then values. */
export const CHECKS: readonly Check[] = [
  frontMatterMalformed,
  boardNotNamed,
  unknownBoard,
  unknownMeter,
  unknownSymptom,
  datesOutOfOrder,
  comebackUnknown,
  comebackNotLinked,
  stageAheadOfEvidence,
  returnedUnproven,
  unknownHeading,
  almostATable,
  textInTable,
  columnNotRead,
  cellsBeyondHeader,
  headingNamesSeveral,
  unknownDesignator,
  numberNotInLibrary,
  statedTwice,
  packageDiffers,
  partDiffersFromBoard,
  notInBoardFile,
  severalPins,
  pinOutsidePackage,
  unreadableValue,
  wrongUnit,
  impossibleValue,
  diodeOutOfWindow,
  railShorted,
  pinShorted,
  railOutOfTolerance,
  coilOverload,
  passiveOutOfTolerance,
  junctionDisproved,
  levelUndefined,
  logicContradiction,
  netDisagreement,
  sharedNetFault,
  likePinOutlier,
  outsideExpected,
  matrixLineUnknown,
  matrixDead,
  matrixShorted,
  matrixPhantom,
  matrixStuck,
  matrixReservedExercised,
  matrixCrossingToClear,
  matrixUnproven,
  memoryChipSuspect,
  romImageUnreadable,
  romImageDiffers,
  romUnidentified,
  romSetDiffers,
  settingsUndefined,
  dateCodeDoubtful,
  duplicateReading,
  partDoesNotFit,
  socketWrongSize,
  removedAndNotReplaced,
  modificationIncomplete,
  modificationConflicting,
  modificationNotForRevision,
  batteryLeftByCorrosion,
  safetyInputDefeated,
  partsListSection,
  replacedNotRetested,
  unusedSuppression,
  sectionNotRead,
  knowledgeFileInvalid,
  unknownDevice,
  duplicateId,
  checkFailed,
];

const byCode = new Map(CHECKS.map((check) => [check.code, check]));

export const checkOf = (code: string): Check | undefined => byCode.get(code);
