import type { SemanticTokensEdit } from "vscode-languageserver";

/** Numbers that make up one token. */
const WIDTH = 5;
/** Tokens that are alike between two changes and so few that two edits would say more than one. */
const TOO_FEW = 2;

/**
 * Edits that turn one list of tokens into another, in its order, none of them touching another. Of two lists of one
 * length those stretches are replaced that differ, as when verdicts change and nothing was typed; else what lies
 * between the common beginning and the common end. Edits begin and end between tokens.
 */
export function tokenEdits(before: readonly number[], after: readonly number[]): SemanticTokensEdit[] {
  return before.length === after.length ? stretches(before, after) : middle(before, after);
}

function stretches(before: readonly number[], after: readonly number[]): SemanticTokensEdit[] {
  const found: { start: number; end: number }[] = [];
  for (let at = 0; at < after.length; at += WIDTH) {
    if (sameToken(before, at, after, at)) continue;
    const last = found.at(-1);
    if (last && at - last.end <= TOO_FEW * WIDTH) last.end = at + WIDTH;
    else found.push({ start: at, end: at + WIDTH });
  }
  return found.map(({ start, end }) => ({ start, deleteCount: end - start, data: after.slice(start, end) }));
}

function middle(before: readonly number[], after: readonly number[]): SemanticTokensEdit[] {
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && sameToken(before, start, after, start)) start += WIDTH;
  let end = 0;
  while (
    end < shorter - start &&
    sameToken(before, before.length - end - WIDTH, after, after.length - end - WIDTH)
  ) {
    end += WIDTH;
  }
  return [{ start, deleteCount: before.length - end - start, data: after.slice(start, after.length - end) }];
}

function sameToken(a: readonly number[], atA: number, b: readonly number[], atB: number): boolean {
  for (let i = 0; i < WIDTH; i++) if (a[atA + i] !== b[atB + i]) return false;
  return true;
}
