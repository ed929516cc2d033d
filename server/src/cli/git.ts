// What git says has changed. It is only asked, and never to write.
import { execFile } from "node:child_process";
import { resolve } from "node:path";
import { promisify } from "node:util";
import { done, failed, type Tried } from "./io";

const run = promisify(execFile);
/** Bytes of names that are taken in. */
const MOST = 64 * 1024 * 1024;

/**
 * Files below a folder that differ from a revision, or that git does not know and was not told to ignore.
 * @param revision as git takes one: a name, a number, `HEAD~3`
 * @param cwd absolute
 * @returns absolute paths, of files that are gone too; else the end of a sentence that begins with the option
 */
export async function changedSince(revision: string, cwd: string): Promise<Tried<readonly string[]>> {
  const git = async (...args: string[]): Promise<string[]> => {
    const { stdout } = await run("git", args, { cwd, maxBuffer: MOST, encoding: "utf8" });
    return stdout.split("\0").filter((name) => name !== "");
  };
  try {
    // What is no revision must not be taken for an option.
    const [id = ""] = await git(
      "rev-parse",
      "--verify",
      "--quiet",
      "--end-of-options",
      `${revision}^{commit}`,
    );
    const changed = await git("diff", "--name-only", "--relative", "-z", id.trim(), "--");
    const unknown = await git("ls-files", "--others", "--exclude-standard", "-z");
    return done([...changed, ...unknown].map((name) => resolve(cwd, name)));
  } catch (error) {
    const { code, stderr = "" } = error as NodeJS.ErrnoException & { stderr?: string };
    if ((code as unknown) === "ENOENT") return failed("needs git, which is not here");
    const said = stderr.trim().split("\n", 1)[0];
    return failed(said ? `could not be looked up: ${said}` : "is no revision that git knows here");
  }
}
