// What a finding about a pin has of the net it is on: its members at the board file's line, and on the hover by the
// finding's own `net`. A message names none of them: a ground net has a hundred.

import { memberNames, someOf } from "../compute/nets/net-text";
import type { LogContext } from "../judge/context";
import type { Net } from "../knowledge/types";
import { locate } from "../syntax/yaml";
import type { RelatedPlace } from "./check";

/** Members named at the board file's line: a ground net has hundreds. */
const ALL = 40;

/** The net's line in the board file with everything on it; none without a net or a board. */
export function placesOfNet(net: Net | undefined, { board }: LogContext): RelatedPlace[] {
  const span = net && board && locate(board.loaded.tree, ["nets", net.name]);
  if (!span || !board) return [];
  const members = memberNames(net);
  return [
    {
      uri: board.uri,
      span,
      message: `net ${net.name}, ${members.length === 1 ? "1 pin" : `${members.length} pins`}: ${someOf(members, ALL)}`,
    },
  ];
}
