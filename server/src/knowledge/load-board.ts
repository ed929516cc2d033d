import { checkBoard } from "./check-board";
import { load } from "./load";
import type { Loaded } from "./loaded";
import { shapeBoard } from "./shape-board";
import type { Board, Device } from "./types";

export interface BoardOptions {
  /** The device behind a part number, where the library knows it: then pins it does not have are reported. */
  readonly deviceOf?: (part: string) => Device | undefined;
}

/** Reads a `*.board.yaml`. */
export const loadBoard = (text: string, options: BoardOptions = {}): Loaded<Board> =>
  load("board", text, shapeBoard, (report, board) => checkBoard(report, board, options.deviceOf));
