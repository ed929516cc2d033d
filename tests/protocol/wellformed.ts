// What the protocol says of the shape of an answer, whatever it is about. Each function gives what is wrong, as
// sentences; an answer that is as it must be gives none.
import type {
  CodeAction,
  CodeLens,
  CompletionList,
  Diagnostic,
  DocumentHighlight,
  DocumentLink,
  DocumentSymbol,
  FoldingRange,
  Hover,
  InlayHint,
  Location,
  LocationLink,
  Position,
  Range,
  SelectionRange,
  SignatureHelp,
  TextEdit,
  WorkspaceEdit,
} from "vscode-languageserver-protocol";

/** The document an answer is about, cut into lines as the protocol cuts it. */
export interface Asked {
  readonly uri: string;
  readonly version: number;
  readonly text: string;
  readonly lines: readonly string[];
}

export function asked(uri: string, version: number, text: string): Asked {
  return { uri, version, text, lines: text.split(/\r\n|\n|\r/) };
}

const atOrBefore = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character <= b.character);
const before = (a: Position, b: Position): boolean => !atOrBefore(b, a);
const within = (inner: Range, outer: Range): boolean =>
  atOrBefore(outer.start, inner.start) && atOrBefore(inner.end, outer.end);
export const holds = (range: Range, at: Position): boolean =>
  atOrBefore(range.start, at) && atOrBefore(at, range.end);
const show = (it: unknown): string => JSON.stringify(it);

/** A place the client did not draw in itself, as a server has to: past a line's end means its end. */
export function drawnIn({ lines }: Asked, { line, character }: Position): Position {
  if (line >= lines.length) return { line: lines.length - 1, character: lines.at(-1)!.length };
  return { line, character: Math.min(character, lines[line]!.length) };
}

function place(doc: Asked, at: Position): string[] {
  const line = doc.lines[at?.line];
  if (line === undefined) return [`${show(at)} is on no line of ${doc.lines.length}`];
  if (!Number.isInteger(at.character) || at.character < 0 || at.character > line.length)
    return [`${show(at)} is outside its line of ${line.length}`];
  const pair = /^[\ud800-\udbff][\udc00-\udfff]$/.test(line.slice(at.character - 1, at.character + 1));
  return pair ? [`${show(at)} cuts a character in two`] : [];
}

export function range(doc: Asked, it: Range, what = "range"): string[] {
  const wrong = [...place(doc, it.start), ...place(doc, it.end)];
  if (before(it.end, it.start)) wrong.push(`${show(it)} is the wrong way round`);
  return wrong.map((each) => `${what}: ${each}`);
}

function apart(ranges: readonly Range[], what: string): string[] {
  const sorted = [...ranges].sort((a, b) => (before(a.start, b.start) ? -1 : 1));
  return sorted.flatMap((it, n) => {
    const last = sorted[n - 1];
    return last && before(it.start, last.end) ? [`${what}: ${show(last)} and ${show(it)} overlap`] : [];
  });
}

export function edits(doc: Asked, all: readonly TextEdit[]): string[] {
  return [
    ...all.flatMap((it) => range(doc, it.range, "edit")),
    ...all.flatMap((it) => (typeof it.newText === "string" ? [] : ["an edit without text"])),
    ...apart(
      all.map((it) => it.range),
      "edits",
    ),
  ];
}

/** Other documents' edits are only looked at for their shape, where `others` does not know them. */
export function workspaceEdit(
  doc: Asked,
  it: WorkspaceEdit,
  others: (uri: string) => Asked | undefined = () => undefined,
): string[] {
  const of = (uri: string) => (uri === doc.uri ? doc : others(uri));
  const byUri = Object.entries(it.changes ?? {}).flatMap(([uri, all]) => {
    const known = of(uri);
    return known ? edits(known, all) : [];
  });
  const versioned = (it.documentChanges ?? []).flatMap((change) => {
    if (!("textDocument" in change)) return [`unexpected ${show(change)}`];
    const { uri, version } = change.textDocument;
    const known = of(uri);
    if (!known) return [];
    const wrong = edits(known, change.edits as TextEdit[]);
    return version === known.version
      ? wrong
      : [...wrong, `an edit of version ${version}, not ${known.version}`];
  });
  return [...byUri, ...versioned];
}

export function completion(doc: Asked, at: Position, it: CompletionList | null): string[] {
  const drawn = drawnIn(doc, at);
  return (it?.items ?? []).flatMap((item) => {
    const wrong: string[] = [];
    if (item.label === "") wrong.push("an item without a label");
    if (!item.kind || item.kind < 1 || item.kind > 25) wrong.push(`${item.label} is of kind ${item.kind}`);
    const edit = item.textEdit;
    if (!edit || !("range" in edit)) return [...wrong, `${item.label} does not say what it replaces`];
    wrong.push(...range(doc, edit.range, item.label));
    if (edit.range.start.line !== edit.range.end.line) wrong.push(`${item.label} replaces several lines`);
    if (!holds(edit.range, drawn))
      wrong.push(`${item.label} replaces what is elsewhere: ${show(edit.range)}`);
    if (item.insertTextFormat === 2 && edit.newText.replace(/\\\$|\$\d|\$\{\d/g, "").includes("$"))
      wrong.push(`${item.label} holds a bare $: ${edit.newText}`);
    return wrong;
  });
}

export function hover(doc: Asked, at: Position, it: Hover | null): string[] {
  if (!it) return [];
  const wrong = it.range ? range(doc, it.range, "hover") : ["a hover of nothing"];
  if (it.range && !holds(it.range, drawnIn(doc, at))) wrong.push(`a hover of what is elsewhere: ${show(it)}`);
  const { value } = it.contents as { value: string };
  if (value.trim() === "" || /undefined|NaN|\[object/.test(value)) wrong.push(`a hover says ${show(value)}`);
  return wrong;
}

export function locations(
  doc: Asked,
  at: Position,
  all: readonly (Location | LocationLink)[] | null,
  others: (uri: string) => Asked | undefined,
): string[] {
  const seen = new Set<string>();
  return (all ?? []).flatMap((it) => {
    const [uri, where] = "targetUri" in it ? [it.targetUri, it.targetSelectionRange] : [it.uri, it.range];
    const target = uri === doc.uri ? doc : others(uri);
    const wrong = target ? range(target, where, "location") : [`a place in ${uri}, which is not known`];
    if ("targetUri" in it) {
      if (!within(it.targetSelectionRange, it.targetRange))
        wrong.push("what is selected is outside the target");
      const origin = it.originSelectionRange;
      if (origin) wrong.push(...range(doc, origin, "origin"));
      if (origin && !holds(origin, drawnIn(doc, at))) wrong.push("a link from elsewhere");
    }
    const key = `${uri} ${show(where)}`;
    if (seen.has(key)) wrong.push(`${key} twice`);
    seen.add(key);
    return wrong;
  });
}

export function highlights(doc: Asked, at: Position, all: readonly DocumentHighlight[] | null): string[] {
  if (!all) return [];
  const wrong = all.flatMap((it) => range(doc, it.range, "highlight"));
  wrong.push(
    ...apart(
      all.map((it) => it.range),
      "highlights",
    ),
  );
  if (all.length > 0 && !all.some((it) => holds(it.range, drawnIn(doc, at))))
    wrong.push("nothing is highlighted where it was asked for");
  return wrong;
}

export function symbols(
  doc: Asked,
  all: readonly DocumentSymbol[] | null,
  parent?: DocumentSymbol,
): string[] {
  return (all ?? []).flatMap((it) => [
    ...(it.name.trim() === "" ? ["a symbol without a name"] : []),
    ...range(doc, it.range, it.name),
    ...range(doc, it.selectionRange, it.name),
    ...(within(it.selectionRange, it.range) ? [] : [`${it.name}: selection outside its range`]),
    ...(!parent || within(it.range, parent.range) ? [] : [`${it.name} is outside ${parent.name}`]),
    ...symbols(doc, it.children ?? [], it),
  ]);
}

export function folds(doc: Asked, all: readonly FoldingRange[] | null): string[] {
  const list = all ?? [];
  return list.flatMap((it, n) => {
    const wrong =
      it.endLine > it.startLine && it.startLine >= 0 && it.endLine < doc.lines.length
        ? []
        : [`fold ${show(it)} in ${doc.lines.length} lines`];
    for (const other of list.slice(n + 1)) {
      const [a, b] = it.startLine <= other.startLine ? [it, other] : [other, it];
      if (a.startLine < b.startLine && b.startLine < a.endLine && a.endLine < b.endLine)
        wrong.push(`folds cross: ${show(a)} and ${show(b)}`);
    }
    return wrong;
  });
}

export function selections(
  doc: Asked,
  at: readonly Position[],
  all: readonly SelectionRange[] | null,
): string[] {
  if (!all) return [];
  if (all.length !== at.length) return [`${all.length} answers to ${at.length} places`];
  return all.flatMap((first, n) => {
    const wrong = holds(first.range, drawnIn(doc, at[n]!))
      ? []
      : [`${show(at[n])} is outside ${show(first)}`];
    for (let it: SelectionRange | undefined = first; it; it = it.parent) {
      wrong.push(...range(doc, it.range, "selection"));
      if (it.parent && !within(it.range, it.parent.range)) wrong.push("a selection is outside its parent");
      if (it.parent && show(it.range) === show(it.parent.range)) wrong.push("a selection like its parent");
    }
    return wrong;
  });
}

/** @param legend how many types and modifiers there are */
export function tokens(
  doc: Asked,
  data: readonly number[],
  legend: { readonly types: number; readonly modifiers: number },
  only?: Range,
): string[] {
  const wrong = data.length % 5 === 0 ? [] : [`${data.length} numbers`];
  let line = 0;
  let character = 0;
  let end = 0;
  for (let i = 0; i + 4 < data.length; i += 5) {
    const [down, along, length, type, modifiers] = data.slice(i, i + 5) as [
      number,
      number,
      number,
      number,
      number,
    ];
    if (down > 0) end = 0;
    line += down;
    character = down > 0 ? along : character + along;
    const at = { start: { line, character }, end: { line, character: character + length } };
    wrong.push(...range(doc, at, "token"));
    if (down < 0 || along < 0 || length <= 0) wrong.push(`token ${show(at)} of ${length}`);
    if (character < end) wrong.push(`token ${show(at)} begins before the last one ends`);
    end = character + length;
    if (type < 0 || type >= legend.types || modifiers < 0 || modifiers >= 2 ** legend.modifiers)
      wrong.push(`token of type ${type} with ${modifiers}`);
    if (only && !(before(at.start, only.end) && before(only.start, at.end)))
      wrong.push(`token ${show(at)} outside what was asked`);
  }
  return wrong;
}

export function hints(doc: Asked, asked: Range, all: readonly InlayHint[] | null): string[] {
  return (all ?? []).flatMap((it) => [
    ...place(doc, it.position),
    ...(holds({ start: drawnIn(doc, asked.start), end: drawnIn(doc, asked.end) }, it.position)
      ? []
      : [`a hint at ${show(it.position)} outside ${show(asked)}`]),
    ...(it.label === "" ? ["a hint without words"] : []),
  ]);
}

export const lenses = (doc: Asked, all: readonly CodeLens[] | null): string[] =>
  (all ?? []).flatMap((it) => [
    ...range(doc, it.range, "lens"),
    ...(it.range.start.line === it.range.end.line ? [] : ["a lens over several lines"]),
  ]);

export function links(doc: Asked, all: readonly DocumentLink[] | null): string[] {
  const list = all ?? [];
  return [
    ...list.flatMap((it) => range(doc, it.range, "link")),
    ...list.flatMap((it) => (it.target && URL.canParse(it.target) ? [] : [`a link to ${it.target}`])),
    ...apart(
      list.map((it) => it.range),
      "links",
    ),
  ];
}

export function signature(it: SignatureHelp | null): string[] {
  return (it?.signatures ?? []).flatMap(({ label, parameters }) =>
    (parameters ?? []).flatMap((each) => {
      if (typeof each.label === "string")
        return label.includes(each.label) ? [] : [`${each.label} is not in ${label}`];
      const [start, end] = each.label;
      return start < end && start >= 0 && end <= label.length ? [] : [`${show(each.label)} in ${label}`];
    }),
  );
}

export function actions(doc: Asked, all: readonly CodeAction[] | null): string[] {
  return (all ?? []).flatMap((it) => [
    ...(it.title.trim() === "" || /undefined|NaN|\[object/.test(it.title)
      ? [`an action called ${it.title}`]
      : []),
    ...(it.kind ? [] : [`${it.title} has no kind`]),
    ...(Boolean(it.edit) === Boolean(it.disabled) ? [`${it.title} can be done, and cannot`] : []),
    ...(it.edit ? workspaceEdit(doc, it.edit).map((wrong) => `${it.title}: ${wrong}`) : []),
  ]);
}

export function diagnostics(
  doc: Asked,
  all: readonly Diagnostic[],
  others: (uri: string) => Asked | undefined,
): string[] {
  return all.flatMap((it) => [
    ...range(doc, it.range, String(it.code)),
    ...(/^\s*$|undefined|NaN|\[object/.test(String(it.message)) ? [`it says ${it.message}`] : []),
    ...(typeof it.code === "string" && it.source === "mendlog" ? [] : [`from ${it.source}: ${it.code}`]),
    ...(it.severity && it.severity >= 1 && it.severity <= 4 ? [] : [`severity ${it.severity}`]),
    ...(it.relatedInformation ?? []).flatMap(({ location, message }) => {
      const there = location.uri === doc.uri ? doc : others(location.uri);
      const wrong = message === "" ? ["related, but why?"] : [];
      return there ? [...wrong, ...range(there, location.range, "related")] : wrong;
    }),
  ]);
}
