// What is wrong with a text that is shown: marks that the program did not write.
import MarkdownIt from "markdown-it";
import { type DefaultTreeAdapterTypes, parse, parseFragment } from "parse5";

/** As editors read it: HTML taken as such, and bare addresses made into links. */
const reader = new MarkdownIt({ html: true, linkify: true });

const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/;
const TURNS = /[\u202a-\u202e\u2066-\u2069]/;

/** A word is only text where what gives it a meaning stands before it. */
const BEFORE: readonly (readonly [word: string, before: RegExp])[] = [
  ["EVILTAG", /onerror=$/],
  ["EVILIMG", /!\[$/],
  ["EVILLINK", /\[$/],
  ["EVILCODE", /[`']$/],
  ["EVILBOLD", /\*\*$/],
  ["EVILHEAD", /#\s?$/],
  ["EVILSCRIPT", /<script>$/],
];

function eaten(text: string): string[] {
  return BEFORE.flatMap(([word, before]) =>
    [...text.matchAll(new RegExp(word, "g"))].flatMap(({ index }) =>
      before.test(text.slice(0, index))
        ? []
        : [`${word} has lost what stands before it: ${text.slice(Math.max(0, index - 30), index + 20)}`],
    ),
  );
}

const isOurs = (address: string): boolean => address.startsWith("data:image/") || address.startsWith("file:");

export function wrongInMarkdown(text: string): string[] {
  const wrong: string[] = [];
  if (CONTROL.test(text) || TURNS.test(text)) wrong.push("a control");
  let shown = "";
  const visit = (tokens: ReturnType<typeof reader.parse>): void => {
    for (const token of tokens) {
      if (token.type === "html_inline" || token.type === "html_block") wrong.push(`HTML: ${token.content}`);
      const address = String(token.attrGet?.("src") ?? token.attrGet?.("href") ?? "");
      if ((token.type === "image" || token.type === "link_open") && !isOurs(address))
        wrong.push(`${token.type} ${address}`);
      if (
        token.type === "text" ||
        token.type === "code_inline" ||
        token.type === "code_block" ||
        token.type === "fence"
      )
        shown += token.content;
      else if (token.type === "softbreak" || token.block) shown += "\n";
      if (token.children && token.type !== "image") visit(token.children);
    }
  };
  visit(reader.parse(text, {}));
  // A heading of ours is words of ours.
  return [...wrong, ...eaten(shown)];
}

export function wrongInHtml(text: string, whole = true): string[] {
  const wrong: string[] = [];
  if (CONTROL.test(text) || TURNS.test(text)) wrong.push("a control");
  const visit = (node: DefaultTreeAdapterTypes.Node): string => {
    if (node.nodeName === "#text") return (node as DefaultTreeAdapterTypes.TextNode).value;
    if ("tagName" in node) {
      if (/^(?:script|iframe|object|embed|link|base|form)$/.test(node.tagName))
        wrong.push(`<${node.tagName}>`);
      for (const { name, value } of node.attrs) {
        if (name.startsWith("on")) wrong.push(`${name}=${value}`);
        if (/^(?:src|href|xlink:href|action)$/.test(name) && !isOurs(value) && !value.startsWith("#"))
          wrong.push(`${name}=${value}`);
      }
    }
    return "childNodes" in node ? node.childNodes.map(visit).join("") : "";
  };
  const shown = visit(whole ? parse(text) : parseFragment(text));
  return [...wrong, ...eaten(shown)];
}

/** What a command writes with no colour asked for. */
export const wrongOnTerminal = (text: string): string[] =>
  [...text.matchAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]|\r(?!\n)/g)].map(
    ({ 0: control, index }) =>
      `${JSON.stringify(control)} in ${JSON.stringify(text.slice(Math.max(0, index - 40), index + 20))}`,
  );
