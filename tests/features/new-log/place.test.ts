import { describe, expect, test } from "vitest";
import { logPathFor } from "../../../server/src/features/new-log/place";
import { nextJob } from "../../../server/src/features/shared/next-job";
import { logSummary } from "../../support/log-summary";

describe("the next job", () => {
  test.each([
    [["2026-004", "2026-021", "2025-087"], "2026-03-20", "2026-022"],
    [["2026-004", "2026-021"], "2027-01-02", "2027-001"],
    [["2025-099", "2025-100"], "2025-12-31", "2025-101"],
    [["417", "418"], "2026-03-20", "419"],
    [["J-0099"], "2026-03-20", "J-0100"],
    [["R2026/7b"], "2026-03-20", "R2026/8b"],
    // Most jobs count, and a number that is taken in another case of letters is taken.
    [["j-1", "J-1", "J-2", "j-3"], "2026-03-20", "j-4"],
    [["2026-1", "2026-2", "lost-77"], "2026-03-20", "2026-3"],
  ])("after %j on %s is %s", (jobs, today, next) => {
    expect(nextJob(jobs, today)).toBe(next);
  });

  test.each([[[]], [["next week", "today"]]])("after %j there is none: nobody asked for numbers", (jobs) => {
    expect(nextJob(jobs, "2026-03-20")).toBeUndefined();
  });
});

const log = (name: string, job: string, board: string, folder = "mem:/ws/logs/") =>
  logSummary(`${folder}${name}.md`, { job, board });
const LOGS = [
  log("2026-004-controller", "2026-004", "regatta-controller"),
  log("2026-013-driver", "2026-013", "regatta-driver"),
];
const where = (question: Partial<Parameters<typeof logPathFor>[0]>) =>
  logPathFor({ job: "2026-022", logs: LOGS, files: LOGS.map(({ uri }) => uri), ...question });

describe("the place of a new log", () => {
  test.each([
    ["of a board with logs", { board: "regatta-driver" }, "2026-022-driver.md"],
    ["of a board without any", { board: "regatta-sound" }, "2026-022-sound.md"],
    ["of no board", {}, "2026-022.md"],
    [
      "without a number",
      { board: "regatta-driver", job: "", received: "2026-03-20" },
      "2026-03-20-driver.md",
    ],
  ])("%s", (_, question, name) => {
    const { job, ...rest } = { job: "2026-022", ...question };
    const asked = job === "" ? logPathFor({ logs: LOGS, files: [], ...rest }) : where({ job, ...rest });
    expect(asked).toEqual({ folder: "mem:/ws/logs/", sure: true, name });
  });

  test("is never that of a file that is there", () => {
    const files = ["mem:/ws/logs/2026-022-Driver.md", "mem:/ws/logs/2026-022-driver-2.md"];
    expect(where({ board: "regatta-driver", files }).name).toBe("2026-022-driver-3.md");
  });

  test("is asked for where logs of other boards lie in several folders", () => {
    const logs = [...LOGS, log("7", "7", "other", "mem:/ws/old/")];
    expect(where({ logs, board: "regatta-sound" })).toMatchObject({ folder: "mem:/ws/logs/", sure: false });
    expect(where({ logs, board: "regatta-driver" })).toMatchObject({ folder: "mem:/ws/logs/", sure: true });
    expect(where({ logs, board: "other", folder: "mem:/ws/here" })).toMatchObject({
      folder: "mem:/ws/here/",
      sure: true,
    });
  });

  test("is proposed beside the boards where there is no log yet", () => {
    const none = { logs: [], files: [], board: "b-1" };
    expect(where({ ...none, boardUri: "mem:/ws/boards/b-1.board.yaml" })).toEqual({
      folder: "mem:/ws/logs/",
      sure: false,
      name: "2026-022-b-1.md",
    });
    expect(where({ ...none, boardUri: "mem:/ws/b-1.board.yaml" }).folder).toBe("mem:/ws/");
    expect(where(none)).toEqual({ sure: false, name: "2026-022-b-1.md" });
  });

  test.each([
    ["../../etc/passwd", "etc-passwd.md"],
    ["a/b\\c:d*?", "a-b-c-d.md"],
    ["con", "log-con.md"],
    ["\u{1f527}", "log.md"],
    ["x".repeat(300), `${"x".repeat(80)}.md`],
  ])("called %j is a name every file system takes", (job, name) => {
    expect(logPathFor({ job, logs: [], files: [] }).name).toBe(name);
  });

  test("counts no log that was never saved", () => {
    const logs = [log("Untitled-1", "1", "x", "untitled:")];
    expect(where({ logs, board: "x" })).toEqual({ sure: false, name: "2026-022-x.md" });
  });
});
