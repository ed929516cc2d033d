// What programs share, compiled: kept between two runs, so that it does not have to be compiled again, which takes twice as long as
// the rest of a start. Code is run from the user's own folder alone, from a file that nobody else may write, and only where it is
// to the byte what this program wrote there for the same source and the same Node.
import { createHash } from "node:crypto";
import {
  closeSync,
  fstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { Script } from "node:vm";
import type { Surroundings } from "../io";
import { keptFolder, keptName } from "./place";

const SUM_LENGTH = 64;
/** Others than the owner may write. */
const OTHERS_WRITE = 0o022;

export interface LoadedReady {
  /** It was there compiled. */
  readonly isReady: boolean;
  /** Keeps it compiled for the next time, where it is not. */
  keep(): void;
}

/**
 * Runs a layer (`server/build/layers.js`), which names itself, so that who asks for it finds it there. Undefined where it could not
 * be: then it is read where it is asked for, as any module.
 * @param source absolute path of the layer's file
 */
export function loadReady(source: string, io: Pick<Surroundings, "env">): LoadedReady | undefined {
  try {
    const folder = keptFolder(io);
    if (folder === undefined) return undefined;
    const { size, mtimeMs } = statSync(source);
    const key = JSON.stringify([source, size, mtimeMs, process.version, process.arch]);
    const path = join(folder, keptName(source, "code"));
    const cachedData = readyIn(path, key);
    // It is ASCII (esbuild.config.js), which is held in one byte a sign.
    const script = new Script(readFileSync(source, "latin1"), {
      filename: source,
      ...(cachedData ? { cachedData } : {}),
    });
    script.runInThisContext();
    const isReady = cachedData !== undefined && script.cachedDataRejected === false;
    return {
      isReady,
      keep() {
        if (!isReady) keepReady(path, key, script.createCachedData());
      },
    };
  } catch {
    return undefined;
  }
}

/** Undefined where there is none for this, or it is not to be trusted. */
function readyIn(path: string, key: string): Buffer | undefined {
  let file: number | undefined;
  try {
    file = openSync(path, "r");
    const { uid, mode } = fstatSync(file);
    if (process.getuid && (uid !== process.getuid() || (mode & OTHERS_WRITE) !== 0)) return undefined;
    const bytes = readFileSync(file);
    const code = bytes.subarray(SUM_LENGTH);
    return bytes.toString("latin1", 0, SUM_LENGTH) === sumFor(key, code) ? code : undefined;
  } catch {
    return undefined;
  } finally {
    if (file !== undefined) closeSync(file);
  }
}

/** Without it the next start is slower, and that is all. */
function keepReady(path: string, key: string, code: Buffer): void {
  const beside = `${path}.${process.pid}.tmp`;
  try {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(beside, Buffer.concat([Buffer.from(sumFor(key, code), "latin1"), code]), {
      mode: 0o600,
      flag: "wx",
    });
    renameSync(beside, path);
  } catch {
    removeBeside(beside);
  }
}

function removeBeside(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // Its folder is none.
  }
}

const sumFor = (key: string, code: Uint8Array): string =>
  createHash("sha256").update(key).update("\n").update(code).digest("hex");
