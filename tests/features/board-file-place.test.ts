import { expect, test } from "vitest";
import { boardFilePlace } from "../../server/src/features/board-file/place";

const folders = ["file:///ws"];
const log = "file:///ws/logs/a.md";

test.each<[string, Parameters<typeof boardFilePlace>[0], string | undefined]>([
  [
    "a folder of its own",
    { id: "halden", log, folders, files: [log] },
    "file:///ws/boards/halden.board.yaml",
  ],
  [
    "beside the others",
    { id: "halden", log, folders, files: ["file:///ws/known/lund.board.yaml", log] },
    "file:///ws/known/halden.board.yaml",
  ],
  [
    "a name that is free, whatever its case",
    { id: "halden", log, folders, files: ["file:///ws/boards/Halden.board.yaml"] },
    "file:///ws/boards/halden-2.board.yaml",
  ],
  [
    "the folder that the log lies in",
    { id: "h", log, folders: ["file:///other/", "file:///ws/", "file:///ws/logs/"], files: [] },
    "file:///ws/logs/boards/h.board.yaml",
  ],
  [
    "not beside those of another folder",
    { id: "h", log, folders: ["file:///other", "file:///ws"], files: ["file:///other/x.board.yaml"] },
    "file:///ws/boards/h.board.yaml",
  ],
  [
    "the first folder for a log that was never saved",
    { id: "h", log: "untitled:Untitled-1", folders, files: [] },
    "file:///ws/boards/h.board.yaml",
  ],
  ["nowhere without a folder", { id: "h", log, folders: [], files: [] }, undefined],
])("%s", (_, question, place) => {
  expect(boardFilePlace(question)).toBe(place);
});
