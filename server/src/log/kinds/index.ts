// Every kind of table that the code knows more of than its procedure says.
import capacitanceEsr from "./capacitance-esr";
import chipTest from "./chip-test";
import coilResistance from "./coil-resistance";
import continuity from "./continuity";
import diodeCheck from "./diode-check";
import display from "./display";
import firstPower from "./first-power";
import fixtureTest from "./fixture-test";
import frequency from "./frequency";
import heatAndTap from "./heat-and-tap";
import inspection from "./inspection";
import type { KindRecord, TableKind } from "./kind";
import lampMatrix from "./lamp-matrix";
import logicLevels from "./logic-levels";
import logicStates from "./logic-states";
import memoryTest from "./memory-test";
import outputsFired from "./outputs-fired";
import partsFitted from "./parts-fitted";
import partsOnBoard from "./parts-on-board";
import playTest from "./play-test";
import proving from "./proving";
import resetTiming from "./reset-timing";
import resistance from "./resistance";
import resistanceToGround from "./resistance-to-ground";
import romCheck from "./rom-check";
import settings from "./settings";
import soak from "./soak";
import supplyRails from "./supply-rails";
import swap from "./swap";
import switchMatrix from "./switch-matrix";
import transistorJunctions from "./transistor-junctions";
import work from "./work";

export { isOfWork, type TableKind } from "./kind";

/** In the order of the job, which is that of a new log: look, read unpowered, power, find the fault, mend, prove. */
export const KINDS: readonly KindRecord[] = [
  inspection,
  settings,
  partsOnBoard,
  resistanceToGround,
  diodeCheck,
  transistorJunctions,
  resistance,
  capacitanceEsr,
  continuity,
  coilResistance,
  romCheck,
  firstPower,
  supplyRails,
  frequency,
  resetTiming,
  logicStates,
  logicLevels,
  memoryTest,
  fixtureTest,
  chipTest,
  swap,
  heatAndTap,
  switchMatrix,
  lampMatrix,
  display,
  outputsFired,
  work,
  partsFitted,
  soak,
  playTest,
  proving,
];

/** Of a workspace's own procedures nothing is known but their columns. */
const OWN: TableKind = {
  holds: "readings",
  place: "columns",
  judgedBy: "expected",
  observedAs: "nothing",
  acrossJobs: "expected",
};

const known = new Map<string, TableKind>(KINDS.map((kind) => [kind.id, kind]));

/** Whether more is known of it than its columns. */
export const hasRecord = (procedure: string): boolean => known.has(procedure);

/** By the procedure's id; one of a workspace's own that has a known id is of that kind. */
export const kindOf = (procedure: string): TableKind => known.get(procedure) ?? OWN;
