import { type DecodedSetting, decodeBank } from "../../compute/memory/switch-settings";
import type { CellPosition } from "../../log/position";
import { bankOf, notedBanks } from "../../review/memory/settings-from-log";
import { joined, type Markdown, markdown, md } from "../../text/markdown";
import type { LogView } from "../view";

/** A switch bank as the table has it: the setting of the switch pointed at first, then all others. */
export function settingsMarkdown(view: LogView, at: CellPosition): Markdown | undefined {
  const board = view.ctx.board?.value;
  if (!board || at.table.kind.holds !== "settings") return undefined;
  const subject = at.reading?.subject ?? at.table.rows[at.row]?.cells ?? {};
  const bank = bankOf({ subject }, board);
  const noted = bank && notedBanks(at.table, board).find((each) => each.bank === bank);
  if (!bank || bank.settings.length === 0) return undefined;
  const { settings, unassigned } = decodeBank(bank, noted?.positions ?? new Map());
  const own = Number(/(\d{1,2})$/.exec(subject.switch?.text.trim() ?? "")?.[1]);
  const isOwn = ({ setting }: DecodedSetting): boolean => setting.switches.includes(own);
  const ordered = [...settings.filter(isOwn), ...settings.filter((each) => !isOwn(each))];
  return joined(
    [
      markdown`**${md(bank.ref)}** as noted here (1 is on, ? is not noted)`,
      joined(
        ordered.map(
          (each) =>
            markdown`- ${isOwn(each) ? markdown`**` : ""}${said(each)}${isOwn(each) ? markdown`**` : ""}`,
        ),
        "\n",
      ),
      ...(unassigned.length > 0
        ? [markdown`Switches ${joined(unassigned, ", ")} belong to no setting.`]
        : []),
    ],
    "\n\n",
  );
}

function said({ setting, pattern, candidates, state }: DecodedSetting): Markdown {
  const where = markdown`switches ${joined(setting.switches, ", ")} at ${md(pattern)}`;
  const means = joined([...new Set(candidates.map(({ meaning }) => meaning))].map(md), " or ");
  const meaning =
    state === "undefined"
      ? markdown`no meaning in the board file`
      : state === "open"
        ? markdown`still open: ${means}`
        : means;
  return markdown`${md(setting.title)}: ${meaning} (${where})`;
}
