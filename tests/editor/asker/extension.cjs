// Asks the editor's language-model tools what an assistant would ask them. Tools have no place on the screen, so what is
// asked lies in a file of the workspace, and the answers are put beside it.
const { readFileSync, renameSync, writeFileSync } = require("node:fs");
const { join } = require("node:path");
const { commands, lm, workspace } = require("vscode");

exports.activate = ({ subscriptions }) => {
  subscriptions.push(commands.registerCommand("asker.ask", ask));
};

async function ask() {
  const folder = join(workspace.workspaceFolders[0].uri.fsPath, ".asker");
  const { number, questions } = JSON.parse(readFileSync(join(folder, "asked.json"), "utf8"));
  const answers = [];
  for (const { tool, input } of questions) answers.push(await answerOf(tool, input));
  const tools = lm.tools.map(({ name, description, tags }) => ({ name, description, tags: [...tags] }));
  // Whole or not at all, for it is looked for while it is written.
  writeFileSync(join(folder, "answering.json"), JSON.stringify({ number, answers, tools }));
  renameSync(join(folder, "answering.json"), join(folder, "answered.json"));
}

async function answerOf(tool, input) {
  try {
    const { content } = await lm.invokeTool(tool, { input, toolInvocationToken: undefined });
    return { text: content.map(({ value }) => value).join("") };
  } catch (error) {
    return { error: String(error) };
  }
}
