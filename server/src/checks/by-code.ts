// Made by `npm run generate`; see server/build/lists.js.
import almostATable from "./almost-a-table";
import batteryLeftByCorrosion from "./battery-left-by-corrosion";
import boardNotNamed from "./board-not-named";
import boardSet from "./board-set";
import busHeldLow from "./bus-held-low";
import cellsBeyondHeader from "./cells-beyond-header";
import type { Check } from "./check";
import checkFailed from "./check-failed";
import chipAsAWhole from "./chip-as-a-whole";
import chipTestFailed from "./chip-test-failed";
import type { CheckCode } from "./codes";
import coilDiode from "./coil-diode";
import coilOverload from "./coil-overload";
import columnNotRead from "./column-not-read";
import columnShifted from "./column-shifted";
import comebackInWarranty from "./comeback-in-warranty";
import comebackNotLinked from "./comeback-not-linked";
import comebackUnknown from "./comeback-unknown";
import continuityBridge from "./continuity-bridge";
import continuityOpen from "./continuity-open";
import dateCodeDoubtful from "./date-code-doubtful";
import datesOutOfOrder from "./dates-out-of-order";
import diodeOutOfWindow from "./diode-out-of-window";
import duplicateId from "./duplicate-id";
import duplicateReading from "./duplicate-reading";
import frontMatterMalformed from "./front-matter-malformed";
import headingNamesSeveral from "./heading-names-several";
import hoursNotRead from "./hours-not-read";
import impossibleValue from "./impossible-value";
import junctionDisproved from "./junction-disproved";
import knowledgeFileInvalid from "./knowledge-file-invalid";
import leadOffGround from "./lead-off-ground";
import leadsSwapped from "./leads-swapped";
import levelUndefined from "./level-undefined";
import likePinOutlier from "./like-pin-outlier";
import lithiumCellCharged from "./lithium-cell-charged";
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
import partHot from "./part-hot";
import partsListSection from "./parts-list-section";
import passiveOutOfTolerance from "./passive-out-of-tolerance";
import photoNotThere from "./photo-not-there";
import pinOutsidePackage from "./pin-outside-package";
import pinShorted from "./pin-shorted";
import pinsMiscounted from "./pins-miscounted";
import pointMissing from "./point-missing";
import railLostBetweenBoards from "./rail-lost-between-boards";
import railOutOfTolerance from "./rail-out-of-tolerance";
import railShorted from "./rail-shorted";
import readingsOffset from "./readings-offset";
import receivedNotStocked from "./received-not-stocked";
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
import stockNotCounted from "./stock-not-counted";
import stressFound from "./stress-found";
import supercapacitorUnlimited from "./supercapacitor-unlimited";
import supplyOffAtChips from "./supply-off-at-chips";
import swapHelped from "./swap-helped";
import swapLeftOpen from "./swap-left-open";
import textInTable from "./text-in-table";
import trialFailed from "./trial-failed";
import unknownBoard from "./unknown-board";
import unknownDesignator from "./unknown-designator";
import unknownDevice from "./unknown-device";
import unknownHeading from "./unknown-heading";
import unknownMeter from "./unknown-meter";
import unknownSymptom from "./unknown-symptom";
import unreadableValue from "./unreadable-value";
import unusedSuppression from "./unused-suppression";
import workOverLimit from "./work-over-limit";
import wrongScale from "./wrong-scale";
import wrongUnit from "./wrong-unit";

/** Each check by its code; it does not compile where a file has another code than its name. */
export const BY_CODE: { readonly [Code in CheckCode]: Check & { readonly code: Code } } = {
  "front-matter-malformed": frontMatterMalformed,
  "board-not-named": boardNotNamed,
  "unknown-board": unknownBoard,
  "board-set": boardSet,
  "rail-lost-between-boards": railLostBetweenBoards,
  "unknown-meter": unknownMeter,
  "unknown-symptom": unknownSymptom,
  "dates-out-of-order": datesOutOfOrder,
  "comeback-unknown": comebackUnknown,
  "comeback-not-linked": comebackNotLinked,
  "stage-ahead-of-evidence": stageAheadOfEvidence,
  "returned-unproven": returnedUnproven,
  "unknown-heading": unknownHeading,
  "almost-a-table": almostATable,
  "text-in-table": textInTable,
  "column-not-read": columnNotRead,
  "cells-beyond-header": cellsBeyondHeader,
  "heading-names-several": headingNamesSeveral,
  "unknown-designator": unknownDesignator,
  "number-not-in-library": numberNotInLibrary,
  "stated-twice": statedTwice,
  "package-differs": packageDiffers,
  "part-differs-from-board": partDiffersFromBoard,
  "not-in-board-file": notInBoardFile,
  "several-pins": severalPins,
  "pin-outside-package": pinOutsidePackage,
  "unreadable-value": unreadableValue,
  "wrong-unit": wrongUnit,
  "impossible-value": impossibleValue,
  "lead-off-ground": leadOffGround,
  "leads-swapped": leadsSwapped,
  "pins-miscounted": pinsMiscounted,
  "column-shifted": columnShifted,
  "readings-offset": readingsOffset,
  "wrong-scale": wrongScale,
  "bus-held-low": busHeldLow,
  "supply-off-at-chips": supplyOffAtChips,
  "chip-as-a-whole": chipAsAWhole,
  "point-missing": pointMissing,
  "diode-out-of-window": diodeOutOfWindow,
  "rail-shorted": railShorted,
  "pin-shorted": pinShorted,
  "rail-out-of-tolerance": railOutOfTolerance,
  "coil-overload": coilOverload,
  "coil-diode": coilDiode,
  "continuity-open": continuityOpen,
  "continuity-bridge": continuityBridge,
  "passive-out-of-tolerance": passiveOutOfTolerance,
  "junction-disproved": junctionDisproved,
  "chip-test-failed": chipTestFailed,
  "swap-helped": swapHelped,
  "trial-failed": trialFailed,
  "stress-found": stressFound,
  "part-hot": partHot,
  "photo-not-there": photoNotThere,
  "swap-left-open": swapLeftOpen,
  "work-over-limit": workOverLimit,
  "hours-not-read": hoursNotRead,
  "stock-not-counted": stockNotCounted,
  "received-not-stocked": receivedNotStocked,
  "comeback-in-warranty": comebackInWarranty,
  "level-undefined": levelUndefined,
  "logic-contradiction": logicContradiction,
  "net-disagreement": netDisagreement,
  "shared-net-fault": sharedNetFault,
  "like-pin-outlier": likePinOutlier,
  "outside-expected": outsideExpected,
  "matrix-line-unknown": matrixLineUnknown,
  "matrix-dead": matrixDead,
  "matrix-shorted": matrixShorted,
  "matrix-phantom": matrixPhantom,
  "matrix-stuck": matrixStuck,
  "matrix-reserved-exercised": matrixReservedExercised,
  "matrix-crossing-to-clear": matrixCrossingToClear,
  "matrix-unproven": matrixUnproven,
  "memory-chip-suspect": memoryChipSuspect,
  "rom-image-unreadable": romImageUnreadable,
  "rom-image-differs": romImageDiffers,
  "rom-unidentified": romUnidentified,
  "rom-set-differs": romSetDiffers,
  "settings-undefined": settingsUndefined,
  "date-code-doubtful": dateCodeDoubtful,
  "duplicate-reading": duplicateReading,
  "part-does-not-fit": partDoesNotFit,
  "socket-wrong-size": socketWrongSize,
  "removed-and-not-replaced": removedAndNotReplaced,
  "modification-incomplete": modificationIncomplete,
  "modification-conflicting": modificationConflicting,
  "modification-not-for-revision": modificationNotForRevision,
  "lithium-cell-charged": lithiumCellCharged,
  "supercapacitor-unlimited": supercapacitorUnlimited,
  "battery-left-by-corrosion": batteryLeftByCorrosion,
  "safety-input-defeated": safetyInputDefeated,
  "parts-list-section": partsListSection,
  "replaced-not-retested": replacedNotRetested,
  "unused-suppression": unusedSuppression,
  "section-not-read": sectionNotRead,
  "knowledge-file-invalid": knowledgeFileInvalid,
  "unknown-device": unknownDevice,
  "duplicate-id": duplicateId,
  "check-failed": checkFailed,
};
