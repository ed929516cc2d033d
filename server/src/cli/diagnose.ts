// The command that says whom one log suspects and what to read next.
import { resolve } from "node:path";
import { diagnosesJson, diagnosisJson, diagnosisReport, diagnosisText } from "../features/shared/diagnosis";
import { boardsOf } from "../features/view";
import type { Printable } from "../text/printable";
import { joinedShown } from "../text/terminal";
import { openDesk, relativeToCwd } from "./desk";
import { done, failed, type Io, type Tried } from "./io";
import type { DiagnoseOptions } from "./options";
import { findTargets } from "./targets";
import { tellOf } from "./tell";

export async function runDiagnose(options: DiagnoseOptions, io: Io): Promise<number> {
  const unread = new Map<string, string>();
  const text = await diagnosed(options, io, unread);
  for (const [path, message] of unread) tellOf(io, relativeToCwd(io.cwd, path), message);
  if (text.ok) io.out.write(text.value);
  else tellOf(io, options.path, text.reason);
  return text.ok && unread.size === 0 ? 0 : 2;
}

/** @param unread is told of the files that it goes by and that could not be read */
async function diagnosed(
  { path, format, top }: DiagnoseOptions,
  io: Io,
  unread: Map<string, string>,
): Promise<Tried<Printable>> {
  const log = resolve(io.cwd, path);
  const look = await io.disk.look(log);
  if (!look.ok) return look;
  if (look.value.kind === "folder") return failed("is a folder: a diagnosis is of one log");
  const { groups, problems } = await findTargets(io.disk, [log], io.cwd);
  const group = groups[0];
  const file = group?.files[0];
  if (!group || !file) return failed(problems[0]?.message ?? "is no log");
  const desk = await openDesk(io.disk, group, { severity: new Map() }, io.cwd);
  // What cured the same symptom before is out of the other logs.
  for await (const _ of desk.remember());
  for (const problem of [...problems, ...desk.unread()]) unread.set(problem.path, problem.message);
  const text = await desk.text(file);
  if (!text.ok) return text;
  const view = await desk.view(file, text.value);
  if (!view) return failed("is no log: its front matter does not hold `mendlog: 1`");
  const at = relativeToCwd(io.cwd, file.path);
  const reports = boardsOf(view).flatMap((one) => {
    const report = diagnosisReport(one, top);
    return report ? [{ report, name: one.doc.ofSet?.name }] : [];
  });
  const [first] = reports;
  if (!first) {
    const ids = view.front.boards?.map(({ board }) => board) ?? [view.front.board];
    return failed(
      ids[0] === undefined
        ? "names no board, so there is nothing to suspect"
        : `is of the board "${ids.join('", "')}", which no board file describes, so there is nothing to suspect`,
    );
  }
  if (view.set && format === "json") return done(diagnosesJson(at, reports));
  if (view.set)
    return done(
      joinedShown(
        reports.map(({ report, name }) => diagnosisText(`${at}, ${name ?? ""}`, report)),
        "\n",
      ),
    );
  const write = format === "json" ? diagnosisJson : diagnosisText;
  return done(write(at, first.report));
}
