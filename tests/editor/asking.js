// The tools for assistants as a scenario asks them: by a small extension of our own beside the one under test.

import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const HERE = dirname(fileURLToPath(import.meta.url));
const ASKED = ".asker/asked.json";
const ANSWERED = ".asker/answered.json";
/** Milliseconds: the first answer waits for the boards to be read, and a next reading for a diagnosis. */
const ANSWER = 40_000;

/** Packs the extension that asks. @param {string} path of the package to be made @throws {Error} with what the packer said */
export function packAsker(path) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [
      join(HERE, "../../node_modules/@vscode/vsce/vsce"),
      "package",
      "--no-dependencies",
      "--skip-license",
      "--allow-missing-repository",
      "--out",
      path,
    ],
    { cwd: join(HERE, "asker"), encoding: "utf8" },
  );
  if (status !== 0) throw new Error(`The extension that asks could not be packed:\n${stdout}${stderr}`);
  return path;
}

/**
 * @param {object} editor of a scenario with `asker: true`
 * @returns asks questions one after the other, `{ tool, input }` each, and gives what the tools said, parsed
 */
export function createAsker(editor) {
  let number = 0;
  return async (...questions) => {
    number += 1;
    editor.writeFile(ASKED, JSON.stringify({ number, questions }));
    await editor.command("Asker: Ask the tools");
    const { answers, tools } = await editor.until(
      `the answers of ${questions.map(({ tool }) => tool).join(", ")}`,
      () => {
        if (!existsSync(join(editor.folder, ANSWERED))) return undefined;
        const answered = JSON.parse(editor.readFile(ANSWERED));
        return answered.number === number && answered;
      },
      ANSWER,
    );
    for (const { error } of answers) if (error !== undefined) throw new Error(`A tool failed: ${error}`);
    return { answers: answers.map(({ text }) => JSON.parse(text)), tools };
  };
}
