// The entry of the board file that a finding rests on, shown with it: what is disputed is often there.
import type { LogContext } from "../judge/context";
import { locate, type YamlPath } from "../syntax/yaml";
import type { RelatedPlace } from "./check";

/** None where no board is known or its file has no such entry. */
export function placesInBoard(path: YamlPath, message: string, { board }: LogContext): RelatedPlace[] {
  const span = board && locate(board.loaded.tree, path);
  return span && board ? [{ uri: board.uri, span, message }] : [];
}

/** Where the board file says what stands at a designator. */
export function placesOfPart(ref: string, ctx: LogContext): RelatedPlace[] {
  const part = ctx.board?.value.parts.get(ref);
  if (!part) return [];
  return placesInBoard(["parts", ref], `${ref} is a ${part.device ?? part.value ?? "part"} here`, ctx);
}
