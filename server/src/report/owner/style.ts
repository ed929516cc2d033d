// The page's look. A colour stands in the sheet only as a variable named here, and every pair of a colour on what is
// behind it is listed, so that the contrast of each pair is computed for each palette in tests/outside/contrast.

import { type Html, joinedHtml, markup, ownHtml } from "../../text/html";

export interface Palette {
  readonly paper: string;
  readonly ink: string;
  readonly muted: string;
  readonly rule: string;
  readonly panel: string;
  readonly warnPanel: string;
  readonly warnInk: string;
  readonly warnRule: string;
  readonly proven: string;
  readonly failed: string;
  readonly unproven: string;
  readonly band: string;
  readonly bandRule: string;
  readonly mark: string;
}

/** On the screen, by what the reader's system prefers; printed on whatever paper there is: black on white. */
export const PAGE_PALETTES: Readonly<Record<"light" | "dark" | "print", Palette>> = {
  light: {
    paper: "#ffffff",
    ink: "#1a1d21",
    muted: "#4a525c",
    rule: "#737c87",
    panel: "#f2f4f7",
    warnPanel: "#fff4d6",
    warnInk: "#5c3d00",
    warnRule: "#8a5c00",
    proven: "#0f5132",
    failed: "#8c1d18",
    unproven: "#5c3d00",
    band: "#dbe6f1",
    bandRule: "#2f567d",
    mark: "#1a1d21",
  },
  dark: {
    paper: "#16181c",
    ink: "#e6e8eb",
    muted: "#b3bac3",
    rule: "#7d8793",
    panel: "#22262c",
    warnPanel: "#33290f",
    warnInk: "#ffe1a0",
    warnRule: "#d9a038",
    proven: "#7fd6a5",
    failed: "#ff9c94",
    unproven: "#f0c468",
    band: "#24405c",
    bandRule: "#9cc2e8",
    mark: "#f4f6f8",
  },
  print: {
    paper: "#ffffff",
    ink: "#000000",
    muted: "#333333",
    rule: "#555555",
    panel: "#ffffff",
    warnPanel: "#ffffff",
    warnInk: "#000000",
    warnRule: "#000000",
    proven: "#000000",
    failed: "#000000",
    unproven: "#000000",
    band: "#dddddd",
    bandRule: "#333333",
    mark: "#000000",
  },
};

type Pair = readonly [foreground: keyof Palette, background: keyof Palette];

/** Every pair of text on what is behind it; WCAG 2.2 success criterion 1.4.3. */
export const TEXT_PAIRS: readonly Pair[] = [
  ["ink", "paper"],
  ["muted", "paper"],
  ["ink", "panel"],
  ["muted", "panel"],
  ["warnInk", "warnPanel"],
  ["proven", "paper"],
  ["failed", "paper"],
  ["unproven", "paper"],
];

/** Every line and shape that carries meaning on what is behind it; success criterion 1.4.11. */
export const GRAPHIC_PAIRS: readonly Pair[] = [
  ["bandRule", "paper"],
  ["bandRule", "band"],
  ["mark", "paper"],
  ["mark", "band"],
  ["rule", "paper"],
  ["warnRule", "warnPanel"],
];

const variables = (palette: Palette): Html =>
  markup`:root { ${joinedHtml(
    Object.entries(palette).map(([name, colour]) => ownHtml(`--${name}: ${colour};`)),
    " ",
  )} }`;

export const REPORT_STYLE = markup`
:root { color-scheme: light dark; }
${variables(PAGE_PALETTES.light)}
@media (prefers-color-scheme: dark) { ${variables(PAGE_PALETTES.dark)} }
@media print { :root { color-scheme: light; } ${variables(PAGE_PALETTES.print)} }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1rem/1.5 system-ui, sans-serif; overflow-wrap: break-word; }
main { max-width: 52rem; margin: 0 auto; padding: 1.5rem 1rem 3rem; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.2rem; margin: 2rem 0 .5rem; border-bottom: 2px solid var(--rule); }
h3 { font-size: 1rem; margin: 0; }
p { margin: .4rem 0; }
.shop, .small, .what { color: var(--muted); }
.small { font-size: .875rem; }
.what { font-weight: 400; }
.once { white-space: nowrap; }
dl.facts { display: grid; grid-template-columns: max-content minmax(0, 1fr); gap: .15rem 1rem; background: var(--panel); color: var(--ink); padding: .75rem 1rem; margin: 1rem 0; }
dl.facts dt { background: var(--panel); color: var(--muted); }
dl.facts dd { margin: 0; }
table { width: 100%; border-collapse: collapse; }
th, td { text-align: left; vertical-align: top; padding: .3rem .75rem .3rem 0; border-bottom: 1px solid var(--rule); }
th { font-weight: 600; }
td ul { margin: 0; padding-left: 1.1rem; }
td li { margin: 0; }
tbody th { width: 30%; }
.number { text-align: right; font-variant-numeric: tabular-nums; }
ul { padding-left: 1.2rem; margin: .4rem 0; }
li { margin: .25rem 0; }
.warn { background: var(--warnPanel); color: var(--warnInk); border-left: .4rem solid var(--warnRule); padding: .5rem 1rem; margin: 1rem 0; }
.warn h2 { margin-top: .25rem; border-bottom-color: var(--warnRule); }
.state { white-space: nowrap; font-weight: 600; }
.proven { color: var(--proven); }
.failed { color: var(--failed); }
.unproven { color: var(--unproven); }
.recorded { color: var(--muted); }
.charts { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 21rem), 1fr)); gap: 1.25rem 2rem; margin-top: .75rem; }
figure { margin: 0; break-inside: avoid; }
figcaption { font-size: .875rem; color: var(--muted); }
svg { display: block; width: 100%; height: auto; max-width: 30rem; font: 12px system-ui, sans-serif; }
svg text { fill: var(--ink); }
.band { fill: var(--band); }
.limit { stroke: var(--bandRule); stroke-width: 1.5; stroke-dasharray: 4 3; }
.axis { stroke: var(--rule); stroke-width: 1; }
.before { fill: var(--paper); stroke: var(--mark); stroke-width: 2; }
.after { fill: var(--mark); stroke: var(--mark); stroke-width: 2; }
.pictures { display: grid; gap: 1.25rem; }
.pictures .pair { display: grid; grid-template-columns: 1fr 1fr; gap: 1.25rem; align-items: start; }
.pictures img { display: block; max-width: 100%; height: auto; border: 1px solid var(--rule); }
@media screen and (max-width: 38rem) {
  dl.facts { grid-template-columns: minmax(0, 1fr); gap: 0; }
  dl.facts dd { margin-bottom: .4rem; }
  table, tbody, tr, tbody th, td { display: block; width: auto; }
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  tr { border-bottom: 1px solid var(--rule); padding: .4rem 0; }
  th, td { border: 0; padding: .1rem 0; }
  td { position: relative; padding-left: 7rem; min-height: 1.6rem; }
  td::before { content: attr(data-label); position: absolute; left: 0; width: 6.5rem; color: var(--muted); }
  td:empty { display: none; }
  .number { text-align: left; }
}
@page { margin: 16mm 16mm 20mm; @bottom-right { content: counter(page) " / " counter(pages); font: 9pt sans-serif; } }
@media print {
  body { font-size: 10.5pt; line-height: 1.4; }
  main { max-width: none; padding: 0; }
  h1, h2, h3, .lead { break-after: avoid; }
  p, li { orphans: 3; widows: 3; }
  .lead { break-inside: avoid; }
  tr, li, dl.facts, .warn { break-inside: avoid; }
  thead { display: table-header-group; }
  tbody tr:first-child { break-before: avoid; }
  dl.facts { border: 1px solid var(--rule); }
  .warn { border: 2px solid var(--warnRule); }
  .charts { grid-template-columns: 1fr 1fr; }
  svg { max-width: 8.4cm; }
  .pictures img { max-height: 110mm; width: auto; }
  .band { print-color-adjust: exact; }
}
`;
