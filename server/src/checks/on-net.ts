// What a finding about a pin says of the net it is on: its name and members in the message, all of them at the board
// file's line, so that what else may be the cause is seen without looking it up.

import { memberNames, netText, someOf } from "../compute/nets/net-text";
import type { LogContext } from "../judge/context";
import type { Net } from "../knowledge/types";
import { locate } from "../syntax/yaml";
import type { RelatedPlace } from "./check";

/** "The pin is on net ROW_1 (U14.2, U15.1)." */
export const onNet = (net: Net): string => `The pin is on ${netText(net)}.`;

/** "On the net: U14.2, U15.1.", where the message has named it; "" where there is none. */
export const onThatNet = (net: Net | undefined): string =>
  net ? `On the net: ${someOf(memberNames(net), 12)}.` : "";

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
