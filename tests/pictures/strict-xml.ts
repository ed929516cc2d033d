// A strict reading of the XML that pictures are made of: no entity but the five, no attribute twice, everything closed.
import { themed } from "../../server/src/pictures/svg";

export interface Element {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly text: string;
}

const NAME = "[A-Za-z][\\w:.-]*";
const TAG = new RegExp(`^<(/?)(${NAME})((?:\\s+${NAME}="[^"<]*")*)\\s*(/?)>`);
const ATTRIBUTE = new RegExp(`(${NAME})="([^"<]*)"`, "g");

/** Every element with the text directly in it; throws where the XML is not well-formed. */
export function elementsOf(svg: string): readonly Element[] {
  const all: { name: string; attributes: Map<string, string>; text: string }[] = [];
  const open: (typeof all)[number][] = [];
  for (let at = 0; at < svg.length; ) {
    if (svg[at] !== "<") {
      const end = svg.indexOf("<", at);
      const text = svg.slice(at, end < 0 ? svg.length : end);
      const inside = open.at(-1);
      if (!inside) throw new Error(`Text outside the root: ${text}`);
      inside.text += decoded(text);
      at += text.length;
      continue;
    }
    const [tag, closing, name = "", attributes = "", empty] = TAG.exec(svg.slice(at)) ?? [];
    if (tag === undefined) throw new Error(`No tag: ${svg.slice(at, at + 60)}`);
    at += tag.length;
    if (closing) {
      if (open.pop()?.name !== name || attributes || empty) throw new Error(`Closed out of turn: ${tag}`);
      continue;
    }
    if (open.length === 0 && all.length > 0) throw new Error("More than one root");
    const found = new Map<string, string>();
    for (const [, key = "", value = ""] of attributes.matchAll(ATTRIBUTE)) {
      if (found.has(key)) throw new Error(`Twice: ${key}`);
      found.set(key, decoded(value));
    }
    const element = { name, attributes: found, text: "" };
    all.push(element);
    if (!empty) open.push(element);
  }
  if (open.length > 0) throw new Error(`Left open: ${open.map(({ name }) => name).join(", ")}`);
  return all;
}

const ENTITIES: Readonly<Record<string, string>> = { lt: "<", gt: ">", amp: "&", quot: '"', apos: "'" };

function decoded(text: string): string {
  if (/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/u.test(text))
    throw new Error("A character XML does not allow");
  return text.replace(/&(\w*);?/g, (whole, name: string) => {
    const char = ENTITIES[name];
    if (char === undefined || !whole.endsWith(";")) throw new Error(`No entity of XML: ${whole}`);
    return char;
  });
}

export const textsOf = (svg: string): readonly string[] =>
  elementsOf(svg)
    .filter(({ name }) => name === "text")
    .map(({ text }) => text);

/** Throws unless the picture is complete in itself, runs nothing, and is small. */
export function checkSafe(svg: string): void {
  const elements = elementsOf(svg);
  const names = new Set(elements.map(({ name }) => name));
  const allowed = /^(svg|title|desc|defs|g|rect|path|circle|text|use|pattern)$/;
  for (const name of names) if (!allowed.test(name)) throw new Error(`<${name}> is not of a picture`);
  const ids = elements.flatMap(({ attributes }) => attributes.get("id") ?? []);
  if (new Set(ids).size !== ids.length) throw new Error("An id twice");
  for (const { name, attributes } of elements) {
    for (const [key, value] of attributes) {
      if (/^on/i.test(key)) throw new Error(`Runs something: ${key}`);
      if (/NaN|undefined|Infinity/.test(value)) throw new Error(`${name} ${key}="${value}"`);
      const target = key === "href" ? value : /url\((.*?)\)/.exec(value)?.[1];
      if (target !== undefined && !ids.includes(target.replace(/^#/, "")))
        throw new Error(`Refers to ${target}`);
      if (key !== "xmlns" && /\/\/|data:|javascript:/i.test(value)) throw new Error(`Refers to ${value}`);
    }
  }
  const size = new TextEncoder().encode(themed(svg, "light")).length;
  if (size > 12_000) throw new Error(`${size} bytes`);
}
