import { isLog } from "../log/sniff";
import { knowledgeKind } from "../workspace/host";
import { concerns } from "./find-files";
import { type Disk, done, failed, type Tried } from "./io";
import { readText } from "./read-text";

/** What everything is made from is never written over, whatever was asked for: fails where `target` is a log or a knowledge file. */
export async function spareSource(target: string, disk: Disk): Promise<Tried<void>> {
  const path = target.replaceAll("\\", "/");
  if (!concerns(path)) return done(undefined);
  const look = await disk.look(target);
  if (!look.ok) return done(undefined);
  if (knowledgeKind(path)) return failed("is refused: it is a knowledge file");
  const text = await readText(disk, target, look.value.size);
  // What cannot be read cannot be told from a log.
  return text.ok && !isLog(text.value) ? done(undefined) : failed("is refused: it is a log");
}
