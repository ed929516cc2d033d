import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import type { Board, Device } from "../../../server/src/knowledge/types";

const PATH = fileURLToPath(new URL("../../../demo/boards/regatta-controller.board.yaml", import.meta.url));

const library = builtinLibrary();
export const deviceOf = (part: string): Device | undefined => library.device(part)?.device;

const loaded = loadBoard(readFileSync(PATH, "utf8"), { deviceOf });
if (!loaded.value) throw new Error("the demo board does not load");
/** The demo's controller board. */
export const regatta: Board = loaded.value;
