// Cautions that belong to work by the words it is written with. All of them: common practice, no source; local codes and
// licensed practice come first.
import { isOfWork } from "../../log/kinds/kind";
import type { CellPosition } from "../../log/position";

/** Words of a row or a note, and the caution that stands with them. */
const CAUTIONS: readonly (readonly [RegExp, string])[] = [
  [
    /\b(?:cut\w*|snip\w*|clip(?:ped|ping)|nipp\w*)\b.{0,30}\b(?:legs?|leads?|pins?|wires?)\b|\b(?:legs?|leads?|pins?|wires?)\b.{0,15}\b(?:cut|snipped|clipped|nipped)\b/i,
    "Wear eye protection when legs and wire ends are cut: they fly off with force.",
  ],
  [
    /\b(?:freez\w*|freezer spray|cold[- ]spray|cooling spray|cooled)\b/i,
    "Freeze spray is mostly flammable, displaces the air and burns skin and eyes. Power off or a kind sold as non-flammable, no iron or sparks near, and ventilate.",
  ],
  [
    /\b(?:solvents?|isopropanol|isopropyl|IPA|alcohol|acetone|contact[- ]cleaner|flux[- ](?:remover|cleaner)|spirit|white spirit)\b/i,
    "Solvents and cleaning sprays are flammable: power off, no iron or sparks near, ventilate, and let the board dry before it is switched on.",
  ],
  [
    /\b(?:E?E?P?ROMs?|[EP]ROM|27\d{2,3}\w*|CMOS|NMOS|MOS)\b/i,
    "ROMs and other MOS parts are killed by static. Wear a wrist strap with its series resistor, on an unpowered board only, and carry them in conductive foam or tubes.",
  ],
  [
    /\b(?:super-?\s?cap\w*|gold-?\s?cap\w*|memory[- ]cap\w*|edlc)\b/i,
    "An empty super-capacitor draws what its series resistor lets through: keep the resistor, mind the polarity, and discharge it through a resistor before it is handled.",
  ],
  [
    /\b(?:[CB]R\s?\d{4}|lithium|li-?ion|LIR\s?\d{4})\b/i,
    "A lithium cell must not be charged, shorted or soldered to. Take the charging path out first, and hand old cells in as local rules say.",
  ],
  [
    /\b(?:display (?:supply|voltages?|rail)|high[- ]voltage|HT|EHT|1[0-9]{2}\s?V|[2-9]\d{2}\s?V)\b/i,
    "Use a meter, leads and probes rated for the display's supply, 600 V or more with shrouded plugs (common practice, no source). It kills and stays charged: discharge it through a resistor, measure, one hand away.",
  ],
  [
    /\b(?:variac|isolat(?:ing|ion) transformer|mains|line voltage|test rig|RCD|GFCI)\b/i,
    "Feed a rig on the mains through an isolating transformer, with a residual-current device before it. Work on the mains side belongs to qualified people; local codes and licensed practice come first.",
  ],
  [
    /\b(?:neutrali[sz]\w*|vinegar|alkal\w*|leak(?:ed|ing|age)?|corro\w*)\b/i,
    "Leaked electrolyte is caustic: gloves and eye protection, and clean it off before anything is soldered there.",
  ],
];

/** In the order of the list, each once. */
export const cautionsFor = (words: string): string[] =>
  CAUTIONS.flatMap(([pattern, caution]) => (pattern.test(words) ? [caution] : []));

const ROLES = new Set<CellPosition["role"]>(["action", "part", "note", "item", "result"]);

/** Of the whole row where it tells of work, else of the cell's own words; none over a reading. */
export function cautionsAt({ role, reading, table, row, cell }: CellPosition): string[] {
  if (reading || !ROLES.has(role)) return [];
  const cells = table.source.rows[row]?.cells ?? [];
  return cautionsFor(isOfWork(table.kind) ? cells.map(({ text }) => text).join(" | ") : cell.text);
}
