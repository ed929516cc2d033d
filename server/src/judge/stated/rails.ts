// Limits for rails of which nothing but the name is known.
import { defined } from "../../base/defined";
import type { Library } from "../../knowledge/library";
import type { Part, Rail } from "../../knowledge/types";
import type { RailStated } from "../../log/stated/statement";
import { siValue } from "../uncertainty";

const PRACTICE = "common practice, no source";
/** What holds a regulator's output; fixed regulators promise 4 % or 5 % (LM7805, LM7812 data sheets, from memory). */
const REGULATED = "5 %";
/** Voltages that three-leg regulators are made for and that such boards use. */
const REGULATED_VOLTS = new Set([3.3, 5, 5.2, 6, 8, 9, 10, 12, 15]);
/** Between the two kinds: some of these are regulated, others are not. */
const LARGE = "20 %";
const LARGE_VOLTS = 24;
/** Without a load a transformer and its capacitor give far more than their name says, under load less. */
const UNREGULATED = { low: 0.7, high: 1.5, text: "-30 % to +50 %" };
/** What a three-leg regulator needs across it, volts, and how many times its output a transformer may give it. */
const DROPOUT = 2;
const RAW_MOST = 3;
/** Ripple that a regulated rail shows at most on a sound board. */
const RIPPLE = "50 mV";

/** The rail with the limits that are usual for one of its name, or that the chips it feeds need. */
export function statedRail({ name, nominal, unregulated, byHabit }: RailStated, fed: Feeds): Rail {
  const volts = Math.abs(nominal);
  const typed = `${nominal} V`;
  const base = { name, nominal: typed, net: name, byName: true as const };
  const why = byHabit ? "by habit, its name does not say the voltage" : "its name";
  if (unregulated || volts > LARGE_VOLTS) {
    if (/\b(?:raw|bulk|input|in)\b/i.test(name) || volts < 6.5) {
      // Such a name says what the rail feeds: a regulator that needs more than it gives.
      const least = Math.sign(nominal) * (volts + DROPOUT);
      const most = nominal * RAW_MOST;
      return {
        ...base,
        tolerance: `+${Math.round((100 * DROPOUT) / volts)} % to +${100 * (RAW_MOST - 1)} %`,
        window: least < most ? [least, most] : [most, least],
        source: `${why}, which is that of the rail it feeds; usual before a regulator: ${PRACTICE}`,
      };
    }
    const ends = [nominal * UNREGULATED.low, nominal * UNREGULATED.high].sort((a, b) => a - b);
    return {
      ...base,
      tolerance: UNREGULATED.text,
      window: [ends[0] ?? nominal, ends[1] ?? nominal],
      source: `${why}; usual for an unregulated rail: ${PRACTICE}`,
    };
  }
  if (!REGULATED_VOLTS.has(volts))
    return { ...base, tolerance: LARGE, usual: true, source: `${why}; usual width: ${PRACTICE}` };
  const needed = fed(nominal);
  if (needed)
    return { ...base, tolerance: needed.tolerance, ripple: RIPPLE, source: `${why}; ${needed.source}` };
  return defined({
    ...base,
    tolerance: REGULATED,
    ripple: RIPPLE,
    usual: volts === 5 ? undefined : (true as const),
    source: `${why}; usual for a regulated rail: ${PRACTICE}`,
  });
}

/** What the chips that a rail of this voltage feeds need of it. */
export type Feeds = (nominal: number) => { readonly tolerance: string; readonly source: string } | undefined;

/** The narrowest supply window among the families on the board that this voltage can feed. */
export function feedWindows(parts: Iterable<Pick<Part, "device">>, library: Library): Feeds {
  const windows = new Map<string, { low: number; high: number; title: string; source: string }>();
  for (const { device } of parts) {
    const family = device === undefined ? undefined : library.device(device)?.family;
    if (!family?.supply || windows.has(family.id)) continue;
    const [low, high] = family.supply.map((end) => siValue(end, "V"));
    if (low === undefined || high === undefined) continue;
    windows.set(family.id, { low, high, title: family.title, source: family.source });
  }
  return (nominal) => {
    const fits = [...windows.values()].filter(({ low, high }) => low <= nominal && nominal <= high);
    const narrowest = fits.sort((a, b) => a.high - a.low - (b.high - b.low))[0];
    if (!narrowest) return undefined;
    const half = Math.min(narrowest.high - nominal, nominal - narrowest.low) / Math.abs(nominal);
    // Wider than any regulator is off: the family does not mind, but the rail is then no longer what its name says.
    if (half > 0.1 || half <= 0) return undefined;
    const percent = Number((half * 100).toFixed(1));
    return {
      tolerance: `${percent} %`,
      source: `${narrowest.title} needs ${percent} %: ${narrowest.source}`,
    };
  };
}
