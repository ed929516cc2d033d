import type { Span } from "../../text/span";
import { addSymptomRefactor } from "../board-file/add-symptom";
import { partsListActions } from "../parts-list";
import { referenceActions } from "../reference-job";
import type { Refactor } from "../types";
import type { LogView } from "../view";
import { convertTable } from "./convert";
import { copyAfterRepair } from "./copy-after";
import { insertTables } from "./insert-table";
import { addMissingPins } from "./missing-pins";
import { sortRows } from "./sort-rows";
import { insertTestRows } from "./test-rows";

type Provider = (view: LogView, selected: Span) => readonly Refactor[];

const PROVIDERS: readonly Provider[] = [
  insertTables,
  insertTestRows,
  addMissingPins,
  convertTable,
  copyAfterRepair,
  sortRows,
  partsListActions,
  referenceActions,
  addSymptomRefactor,
];

/** What can be done at a selection besides repairing findings. */
export const refactorsAt = (view: LogView, selected: Span): readonly Refactor[] =>
  PROVIDERS.flatMap((provide) => provide(view, selected));
