// Object literals that begin with a spread, made so that the engine gives all objects of one a description in common.
//
// V8 of Node 20 takes `{ ...one, more: 1 }` for a copy of `one` with its description, and that copy stands alone: whatever is added
// to it makes another description for each single object, at ten times the cost, which stays until all memory is cleared; and code
// that meets such objects cannot be made fast. Where nothing is spread before it, the same fields go the way of any object's.
import { parseAst } from "rolldown/parseAst";

/**
 * @param {string} code a script
 * @returns {string} the same, each of those literals begun with a spread of nothing
 */
export function withSharedShapes(code) {
  const places = [];
  const look = (node) => {
    if (node === null || typeof node !== "object") return;
    if (Array.isArray(node)) {
      for (const one of node) look(one);
      return;
    }
    if (node.type === "ObjectExpression" && node.properties[0]?.type === "SpreadElement")
      places.push(node.properties[0].start);
    for (const field in node) look(node[field]);
  };
  look(parseAst(code));
  let made = "";
  let last = 0;
  for (const place of places.sort((a, b) => a - b)) {
    made += `${code.slice(last, place)}...null,`;
    last = place;
  }
  return made + code.slice(last);
}
