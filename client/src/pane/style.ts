// Letters that are read from two metres: about a twentieth of the pane's width for the reading, and never colour alone.
export const PANE_STYLE = `
:root { --big: clamp(2.5rem, min(13vw, 17vh), 11rem); }
body { margin: 0; padding: 0; color: var(--vscode-editor-foreground); background: var(--vscode-editor-background);
  font-family: var(--vscode-font-family); line-height: 1.15;
  --mendlog-panel: var(--vscode-editor-background, #fbfaf7); --mendlog-text: var(--vscode-editor-foreground, #1c1f23);
  --mendlog-frame: #5a5f66; --mendlog-faint: #50555c; --mendlog-body: #30353c; --mendlog-on-body: #ffffff;
  --mendlog-pin: #7f858d; --mendlog-bad: #8c1d18; --mendlog-doubt: #7a4a00; --mendlog-calm: #0f5a46; --mendlog-on-mark: #ffffff; }
body.vscode-dark { --mendlog-frame: #8a9099; --mendlog-faint: #b4bac2; --mendlog-body: #454b54; --mendlog-pin: #9aa1aa;
  --mendlog-bad: #ff9d94; --mendlog-doubt: #f0bd62; --mendlog-calm: #7fd0b4; --mendlog-on-mark: #15171a; }
body.vscode-high-contrast { --mendlog-frame: #ffffff; --mendlog-faint: #ffffff; --mendlog-body: #000000; --mendlog-pin: #ffffff;
  --mendlog-bad: #ff9d94; --mendlog-doubt: #ffd04d; --mendlog-calm: #7df0c8; --mendlog-on-mark: #000000; }
body.vscode-high-contrast-light { --mendlog-frame: #000000; --mendlog-faint: #000000; --mendlog-body: #ffffff;
  --mendlog-on-body: #000000; --mendlog-pin: #000000; --mendlog-bad: #7a0f0b; --mendlog-doubt: #5e3800; --mendlog-calm: #00452f;
  --mendlog-on-mark: #ffffff; }
main { display: flex; flex-direction: column; gap: 2vh; padding: 2vh 3vw; height: 100vh; box-sizing: border-box; }
p, h2 { margin: 0; overflow-wrap: anywhere; }
.reading { border: 4px solid var(--mendlog-frame); border-radius: 8px; padding: 1.5vh 2vw; }
.reading .value { font-size: var(--big); font-weight: 700; font-variant-numeric: tabular-nums; }
.reading .verdict { font-size: calc(var(--big) * .5); font-weight: 700; display: flex; align-items: center; gap: .3em; }
.shape svg { width: 1em; height: 1em; display: block; }
.within-limits { border-style: solid; border-color: var(--mendlog-calm); }
.suspect { border-style: dashed; border-color: var(--mendlog-doubt); border-width: 6px; }
.out-of-limits, .impossible { border-style: double; border-color: var(--mendlog-bad); border-width: 12px; }
.within-limits .verdict { color: var(--mendlog-calm); }
.suspect .verdict { color: var(--mendlog-doubt); }
.out-of-limits .verdict, .impossible .verdict { color: var(--mendlog-bad); }
.next { display: flex; flex-wrap: wrap; gap: 2vw; align-items: flex-start; flex: 1; min-height: 0; }
.told { flex: 1 1 45%; min-width: min(12rem, 100%); }
.next h2 { font-size: calc(var(--big) * .26); font-weight: 600; }
.pin { font-size: calc(var(--big) * .62); font-weight: 800; line-height: 1.25; }
.pin .at { white-space: nowrap; }
.pin .name { font-weight: 600; white-space: nowrap; }
.expect { font-size: calc(var(--big) * .4); font-weight: 600; }
.action, .none { font-size: calc(var(--big) * .26); margin-top: .4em; }
.caution { font-size: calc(var(--big) * .22); margin-top: .5em; padding: .3em .5em; border: 2px dashed var(--mendlog-doubt); }
.picture { flex: 1 1 40%; min-width: min(14rem, 100%); max-width: 46rem; }
.picture svg { width: 100%; height: auto; max-height: 62vh; display: block; overflow: visible; }
@media (orientation: portrait) {
  .next { flex-direction: column; flex-wrap: nowrap; gap: 1vh; }
  .told { flex: 0 0 auto; width: 100%; }
  .picture { flex: 1 1 0; min-height: 12rem; width: 100%; max-width: none; }
  .picture svg { height: 100%; max-height: none; }
}
.said { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
`;
