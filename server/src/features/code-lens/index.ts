// A line above what there is more to know of. Where a lens stands costs a look at the log; what it says is worked out
// for the lenses that are shown.
import type { LogView } from "../view";
import { earlierLenses, earlierTitle } from "./earlier";
import { emptyLenses, emptyTitle } from "./empty";
import { readingLenses, readingTitle } from "./readings";
import { suspectLenses, suspectTitle } from "./suspects";
import type { Lens, LensTitle } from "./types";

export { symptomsPlace } from "./earlier";
export type { Lens, LensTitle } from "./types";

/** In the log's order. Of several above one line the counts come first, as they are there before anything is wrong. */
export function lensesOf(view: LogView): readonly Lens[] {
  const counts = [...readingLenses(view), ...emptyLenses(view)];
  return [...counts, ...earlierLenses(view), ...suspectLenses(view)].sort(
    (a, b) => a.span.start - b.span.start,
  );
}

/** Undefined where the text has moved away from the lens. */
export function lensTitle(view: LogView, lens: Lens): LensTitle | undefined {
  const among = LENSES[lens.of];
  const here = among.lenses(view).find(({ of, span }) => of === lens.of && span.start === lens.span.start);
  return here && among.title(view, here);
}

interface Kind {
  readonly lenses: (view: LogView) => readonly Lens[];
  readonly title: (view: LogView, lens: Lens) => LensTitle | undefined;
}

const SUSPECTS: Kind = { lenses: suspectLenses, title: suspectTitle };
const LENSES: Readonly<Record<Lens["of"], Kind>> = {
  log: SUSPECTS,
  section: SUSPECTS,
  readings: { lenses: readingLenses, title: readingTitle },
  empty: { lenses: emptyLenses, title: emptyTitle },
  earlier: { lenses: earlierLenses, title: earlierTitle },
};
