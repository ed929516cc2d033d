// "Run Task" with the command line that comes with the extension, so that nothing needs to be installed to check a folder
// as a commit or a build does. Its output is read by the extension's problem matcher.
import { l10n, ProcessExecution, Task, TaskGroup, tasks, type WorkspaceFolder, workspace } from "vscode";
import type { Feature } from "../mendlog";

const TYPE = "mendlog";

/** What a tasks.json may say of it; anything may stand there. */
interface Asked {
  readonly paths: readonly string[];
  readonly since: string | undefined;
}

/** @param program the command line */
export const checkTask =
  (program: string): Feature =>
  () =>
    tasks.registerTaskProvider(TYPE, {
      provideTasks: () =>
        (workspace.workspaceFolders ?? [])
          .filter(({ uri }) => uri.scheme === "file")
          .map((folder) => taskOf(program, folder)),
      resolveTask: ({ definition, scope, name }) =>
        typeof scope === "object" ? taskOf(program, scope, name, definition) : undefined,
    });

function taskOf(
  program: string,
  folder: WorkspaceFolder,
  name = l10n.t("check the logs"),
  definition: Task["definition"] = { type: TYPE },
): Task {
  const { paths, since } = askedBy(definition);
  const args = [program, "check", ...(since === undefined ? [] : [`--since=${since}`]), "--", ...paths];
  // The editor itself is a Node where it is told so.
  const env = { ELECTRON_RUN_AS_NODE: "1" };
  const run = new ProcessExecution(process.execPath, args, { cwd: folder.uri.fsPath, env });
  const task = new Task(definition, folder, name, TYPE, run, "$mendlog");
  task.group = TaskGroup.Test;
  return task;
}

function askedBy({ paths, since }: Task["definition"]): Asked {
  const named = (Array.isArray(paths) ? paths : []).filter((path) => typeof path === "string");
  return {
    paths: named.length > 0 ? named : ["."],
    since: typeof since === "string" && since !== "" ? since : undefined,
  };
}
