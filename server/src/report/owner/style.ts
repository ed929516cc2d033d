// The page's look. Every colour is named here with what it stands on, so that the contrast of each pair is computed
// in tests/outside/contrast.

export const COLOURS = {
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
} as const;

/** Printed on whatever paper there is: no panels, black on white. */
export const PRINT_COLOURS = {
  paper: "#ffffff",
  ink: "#000000",
  rule: "#555555",
  band: "#e3e3e3",
} as const;

type Pair = readonly [foreground: string, background: string];

/** Every pair of text on what is behind it; WCAG 2.2 success criterion 1.4.3. */
export const TEXT_PAIRS: Readonly<Record<"light" | "print", readonly Pair[]>> = {
  light: [
    [COLOURS.ink, COLOURS.paper],
    [COLOURS.muted, COLOURS.paper],
    [COLOURS.ink, COLOURS.panel],
    [COLOURS.muted, COLOURS.panel],
    [COLOURS.warnInk, COLOURS.warnPanel],
    [COLOURS.proven, COLOURS.paper],
    [COLOURS.failed, COLOURS.paper],
    [COLOURS.unproven, COLOURS.paper],
  ],
  print: [[PRINT_COLOURS.ink, PRINT_COLOURS.paper]],
};

/** Every line and shape that carries meaning on what is behind it; success criterion 1.4.11. */
export const GRAPHIC_PAIRS: Readonly<Record<"light" | "print", readonly Pair[]>> = {
  light: [
    [COLOURS.bandRule, COLOURS.paper],
    [COLOURS.bandRule, COLOURS.band],
    [COLOURS.mark, COLOURS.paper],
    [COLOURS.mark, COLOURS.band],
    [COLOURS.rule, COLOURS.paper],
    [COLOURS.warnRule, COLOURS.warnPanel],
  ],
  print: [
    [PRINT_COLOURS.ink, PRINT_COLOURS.paper],
    [PRINT_COLOURS.ink, PRINT_COLOURS.band],
    [PRINT_COLOURS.rule, PRINT_COLOURS.paper],
  ],
};

const c = COLOURS;
const p = PRINT_COLOURS;

export const STYLE = `
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: ${c.paper}; color: ${c.ink}; font: 1rem/1.5 system-ui, sans-serif; overflow-wrap: break-word; }
main { max-width: 52rem; margin: 0 auto; padding: 1.5rem 1rem 3rem; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.2rem; margin: 2rem 0 .5rem; border-bottom: 2px solid ${c.rule}; }
h3 { font-size: 1rem; margin: 0; }
p { margin: .4rem 0; }
.shop, .small { color: ${c.muted}; }
.small { font-size: .875rem; }
dl.facts { display: grid; grid-template-columns: max-content 1fr; gap: .15rem 1rem; background: ${c.panel}; padding: .75rem 1rem; margin: 1rem 0; }
dl.facts dt { color: ${c.muted}; }
dl.facts dd { margin: 0; }
table { width: 100%; border-collapse: collapse; }
th, td { text-align: left; vertical-align: top; padding: .3rem .5rem .3rem 0; border-bottom: 1px solid ${c.rule}; }
th { font-weight: 600; }
ul { padding-left: 1.2rem; margin: .4rem 0; }
li { margin: .25rem 0; }
.warn { background: ${c.warnPanel}; color: ${c.warnInk}; border-left: .4rem solid ${c.warnRule}; padding: .5rem 1rem; margin: 1rem 0; }
.warn h2 { margin-top: .25rem; border-bottom-color: ${c.warnRule}; }
.state { white-space: nowrap; font-weight: 600; }
.proven { color: ${c.proven}; }
.failed { color: ${c.failed}; }
.unproven { color: ${c.unproven}; }
.recorded { color: ${c.muted}; }
.charts { display: grid; grid-template-columns: repeat(auto-fill, minmax(19rem, 1fr)); gap: 1rem 1.5rem; margin-top: .75rem; }
figure { margin: 0; break-inside: avoid; }
figcaption { font-size: .875rem; }
svg { display: block; width: 100%; height: auto; }
.band { fill: ${c.band}; }
.limit { stroke: ${c.bandRule}; stroke-width: 1.5; stroke-dasharray: 4 3; }
.axis { stroke: ${c.rule}; stroke-width: 1; }
.before { fill: ${c.paper}; stroke: ${c.mark}; stroke-width: 2; }
.after { fill: ${c.mark}; stroke: ${c.mark}; stroke-width: 2; }
.pictures img { max-width: 100%; height: auto; border: 1px solid ${c.rule}; }
@page { margin: 16mm; }
@media print {
  .warn h2 { border-color: ${p.ink}; }
  body, .warn, .warn h2, .shop, .small, dl.facts dt, .proven, .failed, .unproven, .recorded { color: ${p.ink}; background: ${p.paper}; }
  body { font-size: 10.5pt; }
  main { max-width: none; padding: 0; }
  h2 { break-after: avoid; }
  tr, li { break-inside: avoid; }
  thead { display: table-header-group; }
  dl.facts { background: ${p.paper}; border: 1px solid ${p.rule}; }
  .warn { border: 2px solid ${p.ink}; }
  th, td, h2 { border-color: ${p.rule}; }
  .band { fill: ${p.band}; print-color-adjust: exact; }
  .limit, .axis, .before, .after { stroke: ${p.ink}; }
  .before { fill: ${p.paper}; }
  .after { fill: ${p.ink}; print-color-adjust: exact; }
}
`;
