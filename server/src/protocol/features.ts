// Which feature answers for which kind of file. A document that is no log has no view, so none of them runs.
import { completeLog } from "../features/completion";
import { defineLog } from "../features/definition";
import { foldsOf } from "../features/folding";
import { hoverLog } from "../features/hover";
import { symbolsOf } from "../features/symbols";
import type { Completion, Definition, DocumentSymbol, Fold, Hover } from "../features/types";
import type { Service } from "../service";

export function completionsAt(service: Service, uri: string, offset: number): readonly Completion[] {
  const view = service.view(uri);
  return view ? completeLog(view, offset) : [];
}

export function hoverAt(service: Service, uri: string, offset: number): Hover | undefined {
  const view = service.view(uri);
  return view && hoverLog(view, offset);
}

export function definitionAt(service: Service, uri: string, offset: number): Definition | undefined {
  const view = service.view(uri);
  return view && defineLog(view, offset);
}

export function symbolsIn(service: Service, uri: string): readonly DocumentSymbol[] {
  const view = service.view(uri);
  return view ? symbolsOf(view) : [];
}

export function foldsIn(service: Service, uri: string): readonly Fold[] {
  const view = service.view(uri);
  return view ? foldsOf(view) : [];
}
