// The folder of a night: what lies in it is known to the byte, and beside it lies what nobody may read.
import {
  linkSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";

/** Stands in every file outside; nothing that is published may hold it. */
export const CANARY = "canary-7f3a";

/** A log of another folder, whose findings would name the canary. */
const OUTSIDE = {
  "log.md": `---\nmendlog: 1\nboard: ${CANARY}\njob: ${CANARY}\n---\n\n# ${CANARY}\n`,
  "x.board.yaml": `mendlog-board: 1\nid: ${CANARY}\ntitle: ${CANARY}\n`,
  "canary.bin": CANARY,
  "canary.png": CANARY,
};

export function makeFolder(parent = tmpdir()) {
  const home = mkdtempSync(join(parent, "mendlog-night-"));
  const at = (path) => join(home, "ws", path);
  const out = (name) => join(home, "out", name);
  mkdirSync(at(""), { recursive: true });
  mkdirSync(out(""));
  mkdirSync(join(home, "made"));
  for (const [name, text] of Object.entries(OUTSIDE)) writeFileSync(out(name), text);
  symlinkSync(out("log.md"), at("linked.md"));
  symlinkSync(out("x.board.yaml"), at("linked.board.yaml"));
  symlinkSync(out(""), at("linked-folder"));
  symlinkSync(out("canary.png"), at("linked.png"));
  writeFileSync(out("control"), CANARY);

  /** What lies there, by path. */
  const model = new Map();
  /** Older than what was written: the next read of such a file sets its time of reading, on most file systems. */
  const unread = () => {
    for (const name of [...Object.keys(OUTSIDE), "control"]) utimesSync(out(name), 1000, 2000);
  };
  const wasRead = (name) => statSync(out(name)).atimeMs !== 1_000_000;
  unread();
  readFileSync(out("control"));
  /** False where this disk keeps no times of reading: then only what is published tells. */
  const tells = wasRead("control");
  unread();

  return {
    home,
    tells,
    model,
    uri: (path) => pathToFileURL(at(path)).href,
    made: (name) => join(home, "made", name),
    workspace: at(""),
    write(path, text) {
      mkdirSync(dirname(at(path)), { recursive: true });
      // Each by its own rename: no window ever sees half of a file.
      writeFileSync(`${at(path)}.new`, text);
      renameSync(`${at(path)}.new`, at(path));
      model.set(path, text);
    },
    remove(path) {
      rmSync(at(path));
      model.delete(path);
    },
    rename(path, to) {
      mkdirSync(dirname(at(to)), { recursive: true });
      renameSync(at(path), at(to));
      model.set(to, model.get(path));
      model.delete(path);
    },
    link: (path, name) => linkSync(at(path), at(name)),
    /** What is not as it was written, and what was read outside. */
    wrongs() {
      const lost = [...model].flatMap(([path, text]) => {
        let now;
        try {
          now = readFileSync(at(path), "utf8");
        } catch (error) {
          return [`${path} is lost: ${error.code}`];
        }
        return now === Buffer.from(text).toString("utf8") ? [] : [`${path} was changed`];
      });
      const read = tells ? Object.keys(OUTSIDE).filter(wasRead) : [];
      return [...lost, ...read.map((name) => `${name}, outside, was read`)];
    },
    end: () => rmSync(home, { recursive: true, force: true }),
  };
}
