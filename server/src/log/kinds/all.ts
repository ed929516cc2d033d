// Made by `npm run generate`; see server/build/lists.js.
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
import type { KindRecord } from "./kind";
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

/** By the names of their files. */
export const ALL: readonly KindRecord[] = [
  capacitanceEsr,
  chipTest,
  coilResistance,
  continuity,
  diodeCheck,
  display,
  firstPower,
  fixtureTest,
  frequency,
  heatAndTap,
  inspection,
  lampMatrix,
  logicLevels,
  logicStates,
  memoryTest,
  outputsFired,
  partsFitted,
  partsOnBoard,
  playTest,
  proving,
  resetTiming,
  resistance,
  resistanceToGround,
  romCheck,
  settings,
  soak,
  supplyRails,
  swap,
  switchMatrix,
  transistorJunctions,
  work,
];
