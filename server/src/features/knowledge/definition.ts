import type { Known } from "../../judge/context";
import { partTestPoint, pinTestPoint } from "../../judge/test-point";
import { boardIndex } from "../../knowledge/board-index";
import { pinRef } from "../../knowledge/shape-board";
import { nodeAt, type YamlPath } from "../../syntax/yaml";
import type { KnowledgeFile } from "../shared/knowledge-file";
import type { Definition, Target } from "../types";
import { derivedOf } from "./derived";
import { scalarTextAt, typedAt, type YamlCursor, yamlCursorAt } from "./place";

/** Where what is named at the cursor is written down: in this file, or in the workspace's own device and procedure files. */
export function defineKnowledge(file: KnowledgeFile, offset: number): Definition | undefined {
  const place = yamlCursorAt(file, offset);
  if (!place || place.where === "blank" || place.span.start === place.span.end) return undefined;
  const target = place.where === "key" ? ofKey(file, place) : ofValue(file, place);
  return target && { origin: place.span, targets: [target] };
}

/** A switch bank is a part under its designator. */
function ofKey(file: KnowledgeFile, { path }: YamlCursor): Target | undefined {
  return path.length === 2 && path[0] === "switch-banks" ? inFile(file, ["parts", path[1]!]) : undefined;
}

function ofValue(file: KnowledgeFile, place: YamlCursor): Target | undefined {
  const typed = typedAt(file, place);
  if (/^(?:expected|resets|clocks)\/\*\/pin$/.test(place.pattern)) {
    const ref = scalarTextAt(file, [...place.path.slice(0, -1), "ref"]);
    return ref === undefined ? undefined : pinOnNet(file, ref, typed);
  }
  if (`${file.kind}:${place.pattern}` === "shop:stock/*/part") return ofDevice(file, typed);
  const refersTo = place.schema?.refersTo;
  switch (refersTo) {
    case undefined:
      return undefined;
    case "pin":
      return inFile(file, ["parts", pinRef(typed)?.ref ?? typed]);
    case "device":
      return ofDevice(file, typed);
    case "procedure": {
      const found = file.knowledge.procedures.find(({ value }) => value.id === typed);
      return found && idOf(found);
    }
    default:
      return inFile(file, [refersTo, typed]);
  }
}

function inFile(file: KnowledgeFile, path: YamlPath): Target | undefined {
  const found = nodeAt(file.tree, path);
  return found && { uri: file.uri, span: found.keySpan ?? found.valueSpan };
}

/** Only devices that the workspace describes itself have a file to go to. */
function ofDevice({ knowledge }: KnowledgeFile, typed: string): Target | undefined {
  const device = knowledge.library.device(typed)?.device;
  const found = knowledge.devices.find(({ value }) => value === device);
  return found && idOf(found);
}

function idOf({ uri, loaded }: Known<unknown>): Target | undefined {
  const found = nodeAt(loaded.tree, ["id"]);
  return found && { uri, span: found.valueSpan };
}

/** The entry of a net in which the pin is named. */
function pinOnNet(file: KnowledgeFile, ref: string, pin: string): Target | undefined {
  const { board, ctx } = derivedOf(file);
  if (!board) return undefined;
  const place = pinTestPoint(partTestPoint(ref, board, ctx.library), pin, board);
  const number = place.pin?.number ?? pin;
  const net = place.net ?? boardIndex(board).net(ref, pin);
  if (!net) return undefined;
  const list = nodeAt(file.tree, ["nets", net.name])?.node;
  const entry = list?.kind === "list" ? list.items : [];
  const index = entry.findIndex((item) => item.kind === "scalar" && item.source === `${place.ref}.${number}`);
  return inFile(file, index < 0 ? ["nets", net.name] : ["nets", net.name, index]);
}
