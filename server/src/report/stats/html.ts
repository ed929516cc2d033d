// The page of a shop's numbers: one file, no script, nothing fetched.
import { compareValues } from "../../review/numbers/order";
import { cell, type Html, html, joinedHtml, markup } from "../../text/html";
import { factList, page, section, table } from "../owner/page";
import { boardSection, failures } from "./board";
import { counted, percentText, type StatsSource } from "./source";

const STYLE = markup`
h3 { margin: 1.25rem 0 .25rem; }
.bar { fill: var(--band); stroke: var(--bandRule); stroke-width: 1; }
.course { fill: none; stroke: var(--mark); stroke-width: 1; }
tbody th { width: auto; }
figure { margin: .5rem 0; }
@media print { .bar { print-color-adjust: exact; } }
`;

export function statsHtml(source: StatsSource): Html {
  const { numbers, shop } = source;
  const title = markup`The shop's numbers`;
  const boards = [
    ...new Set(
      [numbers.limits, numbers.drift, numbers.cures, numbers.failures, numbers.hours].flatMap((rows) =>
        (rows as readonly { readonly board: string | null }[]).flatMap(({ board }) => board ?? []),
      ),
    ),
  ].sort(compareValues);
  const body = [
    markup`<h1>${title}</h1>\n`,
    shop === undefined ? markup`` : markup`<p class="shop">${html(shop)}</p>\n`,
    markup`<p>What the logs add up to. They say where to look first, and prove nothing of any one board.</p>\n`,
    factList([
      { label: "Jobs", text: String(numbers.jobs) },
      { label: "Returned", text: String(numbers.returned) },
      { label: "Boards were here before", text: comebackWords(source) },
    ]),
    joinedHtml(
      boards.map((board, at) => boardSection(board, markup`b${at}`, source)),
      "",
    ),
    section(
      "On all boards",
      failures(
        numbers.failures.filter(({ board }) => board === null),
        "Parts that keep dying",
        "Part fitted",
        markup`all-f`,
      ),
    ),
    section("Boards that were here before", comebacks(source)),
  ];
  return page(title, joinedHtml(body, ""), STYLE);
}

function comebackWords({ numbers: { comebacks, jobs } }: StatsSource): string {
  const same = comebacks.filter(({ sameSymptom }) => sameSymptom).length;
  if (comebacks.length === 0) return "none";
  return `${counted(comebacks.length, "job")} of ${jobs} (${percentText(comebacks.length / jobs)}), ${same} with a symptom of the time before`;
}

function comebacks({ numbers, boardTitle }: StatsSource): Html {
  if (numbers.comebacks.length === 0) return markup``;
  return table(
    ["Job", "Board", "Earlier job", "After", "Known by", "Same symptom"],
    numbers.comebacks.map(({ job, board, earlier, days, told, sameSymptom }) => [
      cell(job ?? "without a number"),
      cell(board === null ? "" : boardTitle(board)),
      cell(earlier ?? ""),
      days === null ? "" : cell(counted(days, "day")),
      told === "named" ? markup`the log names it` : markup`serial number`,
      sameSymptom ? markup`yes` : markup`no`,
    ]),
    ["After"],
  );
}
