// The mutations: mistakes that a person makes, each one change of one place. `from` must stand exactly once in the file.
// Chosen from the sources before their tests were looked at: a comparison turned round, a factor, one too many, a condition
// left out, a sign, a key that lacks a part, an escape, a status.

/** @type {readonly { file: string, from: string, to: string, tests: readonly string[] }[]} */
export const MUTATIONS = [
  {
    file: "compute/limits/compare.ts",
    from: 'if (lowest > high) return outside("high"',
    to: 'if (highest > high) return outside("high"',
    tests: ["tests/compute/limits", "tests/judge/rail.test.ts"],
  },
  {
    file: "judge/rail.ts",
    from: "high >= 0 || !side",
    to: "high <= 0 || !side",
    tests: ["tests/judge/rail.test.ts", "tests/judge/wording.test.ts"],
  },
  {
    file: "compute/circuit/ripple.ts",
    from: '(rectifier === "full-wave" ? 2 : 1)',
    to: '(rectifier === "full-wave" ? 1 : 2)',
    tests: ["tests/compute/circuit/ripple.test.ts"],
  },
  {
    file: "compute/logic/levels.ts",
    from: "const near = volts + uncertainty >= receiving.vih || volts - uncertainty <= receiving.vil;",
    to: "const near = volts - uncertainty <= receiving.vil;",
    tests: ["tests/compute/logic/levels.test.ts"],
  },
  {
    file: "compute/dates/iso-week.ts",
    from: "(day - weekday + 4) * DAY",
    to: "(day - weekday + 3) * DAY",
    tests: ["tests/compute/dates"],
  },
  {
    file: "compute/matrix/phantoms.ts",
    from: "by.filter((key) => !blocked.has(key)).map(cellOf)",
    to: "by.map(cellOf)",
    tests: ["tests/compute/matrix"],
  },
  {
    file: "compute/memory/address-lines.ts",
    from: '(fault.wins === "low" ? both : 0)',
    to: '(fault.wins === "low" ? 0 : both)',
    tests: ["tests/compute/memory/address-lines.test.ts"],
  },
  {
    file: "compute/diagnosis/hitting-sets.ts",
    from: "while (completeUpTo < maxSize && !allowance.stopped)",
    to: "while (completeUpTo <= maxSize && !allowance.stopped)",
    tests: ["tests/compute/diagnosis/hitting-sets.test.ts"],
  },
  {
    file: "compute/money/decimal.ts",
    from: "({ digits, scale: scale + 2 })",
    to: "({ digits, scale: scale + 1 })",
    tests: ["tests/compute/money", "tests/report/owner/quote.test.ts", "tests/report/paper/bill.test.ts"],
  },
  {
    file: "review/timeline/settled.ts",
    from: "later.phase <= repairsBefore(reading.table)",
    to: "later.phase < repairsBefore(reading.table)",
    tests: ["tests/review/timeline", "tests/checks/settled.test.ts"],
  },
  {
    file: "review/timeline/settled.ts",
    from: "[table.procedure.id, measure, load, power, at,",
    to: "[table.procedure.id, measure, power, at,",
    tests: ["tests/review/timeline", "tests/checks/settled.test.ts"],
  },
  {
    file: "review/comeback/warranty.ts",
    from: "from + days * DAY_MS",
    to: "from + (days + 1) * DAY_MS",
    tests: ["tests/checks/examples.test.ts", "tests/review"],
  },
  {
    file: "review/parts/order.ts",
    from: "Math.max(0, order.quantity - piecesReceived(order))",
    to: "Math.max(0, order.quantity)",
    tests: ["tests/review/parts", "tests/cli/parts.test.ts"],
  },
  {
    file: "review/diagnosis/parts/swaps.ts",
    from: 'told === "worse" || (told !== "same" && row.state !== "put-back")',
    to: 'told === "worse"',
    tests: ["tests/review/diagnosis"],
  },
  {
    file: "checks/capped.ts",
    from: "const more = group.slice(MOST);",
    to: "const more = group.slice(MOST + 1);",
    tests: ["tests/checks/capped.test.ts"],
  },
  {
    file: "checks/settled.ts",
    from: "pins.every((pin) => by.has(pin))",
    to: "pins.some((pin) => by.has(pin))",
    tests: ["tests/checks/settled.test.ts", "tests/checks/examples.test.ts"],
  },
  {
    file: "protocol/reports.ts",
    from: "...jobs, images, service.relatedJobs(uri)",
    to: "...jobs, service.relatedJobs(uri)",
    tests: ["tests/protocol/images.test.ts", "tests/protocol/pictures.test.ts"],
  },
  {
    file: "protocol/answer.ts",
    from: 'new ResponseError(LSPErrorCodes.RequestCancelled, "The request was cancelled.")',
    to: 'new ResponseError(LSPErrorCodes.RequestFailed, "The request was cancelled.")',
    tests: ["tests/protocol/robustness.test.ts", "tests/protocol/cancelling.test.ts"],
  },
  {
    file: "protocol/token-edits.ts",
    from: "end < shorter - start &&",
    to: "end < shorter &&",
    tests: ["tests/protocol/token-edits.test.ts"],
  },
  {
    file: "protocol/convert.ts",
    from: "{ start: Math.min(a, b), end: Math.max(a, b) }",
    to: "{ start: a, end: b }",
    tests: [
      "tests/protocol/documents.test.ts",
      "tests/protocol/robustness.test.ts",
      "tests/protocol/fuzz.test.ts",
    ],
  },
  {
    file: "text/csv.ts",
    from: "/^[=+\\-@\\t\\r\\n]/",
    to: "/^[=+\\-\\t\\r\\n]/",
    tests: ["tests/text/marked.test.ts", "tests/cli/parts.test.ts"],
  },
  {
    file: "report/fingerprint.ts",
    from: "seen.set(key, nth + 1);",
    to: "seen.set(key, nth);",
    tests: ["tests/report/machine.test.ts"],
  },
  {
    file: "report/outcome.ts",
    from: "if (report.problems.length > 0) return 2;",
    to: "if (report.problems.length > 0) return 1;",
    tests: ["tests/report/machine.test.ts", "tests/cli/check.test.ts"],
  },
  // The one that nothing notices: no check asks what day it is, and the day is in the key lest one ever does.
  {
    file: "cli/kept/keeper.ts",
    from: "      io.today(),\n",
    to: "",
    tests: ["tests/cli/kept.test.ts"],
  },
];
