// How often the diagnosis has the faulty part first where the readings come of a circuit simulator and of an evaluator
// of logic that share nothing with it; what they assume stands in tests/bench/injected/README.md. Ends with status 1
// where a figure falls short of what stands. Needs ngspice.
//
//   node tests/bench/injected.js [a set's name] [--logs FOLDER] [--misses 0]
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { load } from "./sources.js";

/** Just below what stands now, of faults that any reading shows. Only ever raised. */
const LEAST_FIRST = 0.7;
const LEAST_IN_THREE = 0.85;
/** Mistakes at the bench that lead, made in the logs of boards without a fault. */
const LEAST_MISTAKES = 0.92;
/** Findings of error severity on boards without a fault. */
const MOST_FALSE = 0;

const args = process.argv.slice(2);
const option = (name) => (args.includes(name) ? args.splice(args.indexOf(name), 2)[1] : undefined);
const folder = option("--logs");
const listed = option("--misses") !== "0";
const [only] = args;

const demo = new URL("../../demo/", import.meta.url);
const SERVER = "../../../server/src";
const own = await load(
  [
    `export { Service } from "${SERVER}/service";`,
    `export { diagnosisReport, diagnosisJson } from "${SERVER}/features/shared/diagnosis";`,
    ...["board", "bench", "log", "mistakes", "score", "spice"].map((name) => `export * from "./${name}";`),
  ].join("\n"),
  new URL("injected/", import.meta.url),
);
const { Service, diagnosisReport, diagnosisJson } = own;
if (!own.spicePresent()) {
  console.error("ngspice cannot be run: install the Debian package ngspice or set MENDLOG_NGSPICE");
  process.exit(process.env.MENDLOG_REQUIRE_OUTSIDE === "1" ? 1 : 0);
}

const file = (name) => new URL(name, demo);
const SHOP = "mendlog.shop.yaml";
const BOARDS = ["boards/regatta-controller.board.yaml", "boards/regatta-driver.board.yaml"];
const [controller, driver] = BOARDS.map((name) => own.readBoard(file(name)));
const sets = own.setsOf(controller, driver).filter(({ name }) => only === undefined || name.includes(only));
const { intact, specimens, unseen } = own.inject(sets, new own.BenchMeter(file(SHOP)));
const simulated = cpu();

const texts = new Map([...BOARDS, SHOP].map((name) => [`mem:/${name}`, readFileSync(file(name), "utf8")]));
const service = new Service({ read: async (uri) => texts.get(uri), list: async () => [...texts.keys()] });
await service.load();
for await (const _ of service.index());

/** What `mendlog diagnose --json` says of a log, and its findings. */
async function examine(name, text) {
  const uri = `mem:/logs/${name}.md`;
  service.open(uri, text);
  const findings = service.findings(uri);
  const report = diagnosisReport(service.view(uri), 20);
  await service.close(uri);
  return { findings, report: report && JSON.parse(diagnosisJson(uri, report)) };
}

if (folder) mkdirSync(folder, { recursive: true });
const nameOf = ({ set, faults }) => `${set.name} ${faults[0].id}`.replace(/[^A-Za-z0-9]+/g, "-");
let falsely = 0;
for (const specimen of intact) {
  if (folder) writeFileSync(join(folder, `${nameOf(specimen)}.md`), specimen.log);
  const { findings } = await examine(nameOf(specimen), specimen.log);
  for (const { code, severity, message } of findings)
    if (severity === "error") {
      falsely += 1;
      console.log(`no fault, ${specimen.set.name}: ${code}: ${message}`);
    }
}
const outcomes = [];
for (const specimen of specimens) {
  if (folder) writeFileSync(join(folder, `${nameOf(specimen)}.md`), specimen.log);
  const { report } = await examine(nameOf(specimen), specimen.log);
  outcomes.push({ ...own.judge(specimen, report?.suspects ?? []), next: report?.next });
}
const mistaken = [];
for (const specimen of only === undefined ? intact : [])
  for (const one of own.mistakesIn(nameOf(specimen), specimen.log)) {
    const { report } = await examine("mistake", one.log);
    mistaken.push({ ...one, leads: report !== undefined && own.mistakeLeads(one, report) });
  }
const spent = cpu();

const percent = (share) => `${(100 * share).toFixed(1)} %`.padStart(7);
const row = (title, { count, first, three }) =>
  console.log(
    `  ${title.padEnd(34)} ${String(count).padStart(4)}  ${percent(first / count)}  ${percent(three / count)}`,
  );
const by = (title, key) => {
  console.log(`\n${title.padEnd(36)}  logs    first   in three`);
  const groups = Map.groupBy?.(outcomes, key) ?? groupBy(outcomes, key);
  for (const [name, of] of [...groups].sort(([a], [b]) => a.localeCompare(b))) row(name, own.tally(of));
};
by("By what was read", ({ specimen }) => `${specimen.set.from}: ${specimen.set.name}`);
by("By kind of part", ({ specimen }) => specimen.faults[0].part);
by("By what happened to it", ({ specimen }) => specimen.faults[0].what);

if (mistaken.length > 0) {
  console.log("\nMistakes at the bench                 logs    lead");
  const kinds = Map.groupBy?.(mistaken, ({ table }) => table) ?? groupBy(mistaken, ({ table }) => table);
  for (const [name, of] of [...kinds].sort(([a], [b]) => a.localeCompare(b)))
    console.log(
      `  ${name.padEnd(38)} ${String(of.length).padStart(3)}  ${percent(of.filter(({ leads }) => leads).length / of.length)}`,
    );
}
if (listed) {
  console.log("\nNot first:");
  for (const { specimen, place, leader } of outcomes)
    if (place !== 0) {
      const where = place < 0 ? "not named" : `place ${place + 1}`;
      const who = leader ? `${leader.name} (${percent(leader.share).trim()})` : "nobody";
      console.log(
        `  ${specimen.set.name}: ${specimen.faults.map(({ id }) => id).join(" = ")}: ${where}; first ${who}`,
      );
    }
}

const all = own.tally(outcomes);
const { bands, brier } = own.calibration(outcomes);
console.log("\nClaims of a share, and how often they are so:");
for (const { from, to, count, said, right } of bands)
  if (count > 0)
    console.log(
      `  ${from} to ${to}: ${String(count).padStart(4)}  says ${percent(said)}, is ${percent(right)}`,
    );
console.log(`  Brier ${brier.toFixed(3)}, nobody named ${outcomes.filter(({ leader }) => !leader).length}`);

let short = false;
const hold = (ok) => {
  short ||= !ok;
  return ok ? "" : "   <- falls short";
};
const grouped = specimens.filter(({ faults }) => faults.length > 1);
const faults = specimens.reduce((sum, { faults: of }) => sum + of.length, 0) + unseen.length;
console.log(
  `\n${faults} faults injected: ${unseen.length} that no reading of their log shows (not counted), ${specimens.length} logs that differ, ${grouped.length} of them of ${grouped.reduce((sum, { faults: of }) => sum + of.length, 0)} faults that read alike`,
);
const whole = only === undefined;
console.log(
  `faulty part first: ${percent(all.first / all.count)}${hold(!whole || all.first / all.count >= LEAST_FIRST)}`,
);
console.log(
  `in the first three: ${percent(all.three / all.count)}${hold(!whole || all.three / all.count >= LEAST_IN_THREE)}`,
);
const leading = mistaken.filter(({ leads }) => leads).length / Math.max(1, mistaken.length);
if (whole)
  console.log(
    `mistakes that lead: ${percent(leading)} of ${mistaken.length}${hold(leading >= LEAST_MISTAKES)}`,
  );
console.log(
  `findings of error severity on ${intact.length} boards without a fault: ${falsely}${hold(falsely <= MOST_FALSE)}`,
);
console.log(
  `processor time: ${simulated.toFixed(0)} s for the simulation, ${(spent - simulated).toFixed(0)} s for the diagnosis`,
);
process.exitCode = short ? 1 : 0;

/** Seconds of this process and, where the system tells it, of those that it ran. */
function cpu() {
  const { userCPUTime, systemCPUTime } = process.resourceUsage();
  let others = 0;
  try {
    // Fields 16 and 17: the children's user and system time in hundredths of a second (proc(5)).
    const fields = readFileSync("/proc/self/stat", "utf8").split(") ")[1].split(" ");
    others = (Number(fields[13]) + Number(fields[14])) / 100;
  } catch {
    // Not on Linux.
  }
  return (userCPUTime + systemCPUTime) / 1e6 + others;
}

function groupBy(list, key) {
  const groups = new Map();
  for (const one of list) groups.set(key(one), [...(groups.get(key(one)) ?? []), one]);
  return groups;
}
