// What is found in the logs of a corpus, counted.
import type { Finding } from "../../server/src/checks/check";
import { diagnosisReport } from "../../server/src/features/shared/diagnosis";
import { Service } from "../../server/src/service";
import type { Fault, Place, Specimen } from "./corpus";

/** Rightly said of any log whose board no file describes. */
const OF_THE_BOARD: ReadonlySet<string> = new Set(["board-not-named", "unknown-board"]);

interface Seen extends Place {
  readonly code: string;
  readonly message: string;
  readonly line: number;
}

export interface Measured {
  readonly specimen: Specimen;
  readonly missed: readonly Fault[];
  /** Told where nothing is wrong, each place once: on the sound board or on the faulty one. */
  readonly wrong: readonly Seen[];
  readonly unnamed: readonly string[];
}

async function look(text: string): Promise<{ seen: Seen[]; suspects: string[] }> {
  const uri = "mem:/ws/log.md";
  const service = new Service({ read: async () => undefined, list: async () => [] });
  await service.load();
  service.open(uri, text);
  const counts = ({ severity, code }: Finding) => severity !== "hint" && !OF_THE_BOARD.has(code);
  const seen = service
    .findings(uri)
    .filter(counts)
    .map(({ code, message, span }) => ({
      ...span,
      code,
      message,
      line: text.slice(0, span.start).split("\n").length,
    }));
  const view = service.view(uri);
  const report = view && diagnosisReport(view, 5);
  return { seen, suspects: report?.suspects.map(({ name }) => name.toUpperCase()) ?? [] };
}

const within = (seen: Place, place: Place): boolean => place.start <= seen.start && seen.end <= place.end;
const points = (seen: Seen, { places, code }: Fault): boolean =>
  (code === undefined || seen.code === code) && places.some((place) => within(seen, place));
const about = ({ code, line }: Seen): string => `${code} in line ${line}`;

/** What is found in a log that nothing is known of but what it says itself. */
export async function measure(specimen: Specimen): Promise<Measured> {
  const clean = await look(specimen.clean);
  const faulty = await look(specimen.text);
  // What is said of the sound board too has not found what is wrong with the other.
  const anyway = new Set(clean.seen.map(about));
  const news = faulty.seen.filter((seen) => !anyway.has(about(seen)));
  // A fault of a matrix is told by one check, but others may say something of its table as well.
  const near = (seen: Seen) =>
    specimen.faults.some(({ places }) => places.some((place) => within(seen, place)));
  const wrong = new Map(
    [...clean.seen, ...news.filter((seen) => !near(seen))].map((seen) => [about(seen), seen]),
  );
  return {
    specimen,
    missed: specimen.faults.filter((fault) => !news.some((seen) => points(seen, fault))),
    wrong: [...wrong.values()],
    // An open joint or contact at one of its legs is a place at that part: "the joint of U3 pin 7".
    unnamed: specimen.names.filter((name) => !faulty.suspects.some((suspect) => isAt(suspect, name))),
  };
}

export const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
/** How many faults there are, are found, and how many parts a diagnosis names among its first five. */
export const planted = ({ specimen }: Measured): number => specimen.faults.length;
export const found = (one: Measured): number => planted(one) - one.missed.length;
const isAt = (suspect: string, name: string): boolean =>
  suspect === name || new RegExp(`\\b${name} PIN \\w+$`).test(suspect);

export const named = ({ specimen, unnamed }: Measured): number => specimen.names.length - unnamed.length;

/** For whoever sets MENDLOG_DEPTH0=print: log by log what is found, missed and said wrongly. */
export function table(all: readonly Measured[]): string {
  const line = (name: string, ...cells: readonly string[]) =>
    name.padEnd(30) + cells.map((cell) => cell.padStart(9)).join("");
  return [
    line("log", "found", "false", "named"),
    ...all.flatMap((one) => [
      line(
        one.specimen.name,
        `${found(one)}/${planted(one)}`,
        String(one.wrong.length),
        `${named(one)}/${one.specimen.names.length}`,
      ),
      ...one.missed.map(({ what, row }) => `    missed  ${what}: ${row}`),
      ...one.wrong.map((seen) => `    false   ${about(seen)}: ${seen.message.slice(0, 100)}`),
      ...(one.unnamed.length > 0 ? [`    unnamed ${one.unnamed.join(", ")}`] : []),
    ]),
    line(
      "all",
      `${sum(all.map(found))}/${sum(all.map(planted))}`,
      String(sum(all.map(({ wrong }) => wrong.length))),
      `${sum(all.map(named))}/${sum(all.map(({ specimen }) => specimen.names.length))}`,
    ),
  ].join("\n");
}
