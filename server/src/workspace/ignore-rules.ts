// Files that a folder's owner wants left out, as `.gitignore` and `.mendlogignore` say: the patterns of gitignore(5), read by
// the library `ignore`.
import ignore, { type Ignore } from "ignore";

/** The second counts where both stand in a folder and say otherwise. */
export const IGNORE_FILES: readonly string[] = [".gitignore", ".mendlogignore"];

/** The rules of all folders that were looked into so far. */
export class IgnoreRules {
  /** By folder, from the root, with a slash at its end; the root is "". */
  readonly #folders = new Map<string, Ignore>();

  /** Takes in what such a file says of its folder. What is no pattern counts for nothing. */
  add(folder: string, text: string): void {
    let rules = this.#folders.get(folder);
    if (!rules) {
      rules = ignore();
      this.#folders.set(folder, rules);
    }
    rules.add(text);
  }

  get isEmpty(): boolean {
    return this.#folders.size === 0;
  }

  /**
   * Whether a file, or a folder with a slash at its end, is left out. Only the rules of the folders above it that were added
   * count; what lies in a folder that is left out is left out with it.
   * @param path from the root, with forward slashes
   */
  ignores(path: string): boolean {
    if (this.isEmpty) return false;
    let ignored = false;
    for (let end = path.indexOf("/"); ; end = path.indexOf("/", end + 1)) {
      const part = end < 0 ? path : path.slice(0, end + 1);
      ignored = this.#verdict(part);
      if (ignored || end < 0 || end === path.length - 1) return ignored;
    }
  }

  /** The innermost folder that says anything of it is heard. */
  #verdict(path: string): boolean {
    let ignored = false;
    // Folders were added from the outside in.
    for (const [folder, rules] of this.#folders) {
      if (!path.startsWith(folder) || path.length === folder.length) continue;
      const { ignored: yes, unignored: no } = rules.test(path.slice(folder.length));
      if (yes || no) ignored = yes;
    }
    return ignored;
  }
}
