// Runs pcb-rnd (Debian packages pcb-rnd-io-alien and pcb-rnd-export-extra 3.0.6), which reads layouts of the suite's version 5
// and writes IPC-D-356. MENDLOG_PCB_RND names another program, MENDLOG_REQUIRE_OUTSIDE=1 makes its absence a failure.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseSExpr, type SExpr } from "../kicad/sexpr";

const PROGRAM = process.env.MENDLOG_PCB_RND ?? "pcb-rnd";
export const PCB_RND_ABSENT = `${PROGRAM} cannot write IPC-D-356: install pcb-rnd-io-alien and pcb-rnd-export-extra, or set MENDLOG_PCB_RND`;

const inFolder = <T>(run: (folder: string) => T): T => {
  const folder = mkdtempSync(join(tmpdir(), "mendlog-pcb-rnd-"));
  try {
    return run(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const start = (folder: string, path: string) =>
  spawnSync(PROGRAM, ["-x", "IPC-D-356", path], {
    encoding: "utf8",
    cwd: folder,
    maxBuffer: 1 << 26,
    timeout: 60_000,
    env: { ...process.env, HOME: folder },
  });

/** A layout of version 6 as a netlist. Throws where the program wrote none. */
export function asIpcD356(layout: string): string {
  return inFolder((folder) => {
    writeFileSync(join(folder, "board.kicad_pcb"), asVersion5(layout));
    const ran = start(folder, "board.kicad_pcb");
    try {
      return readFileSync(join(folder, "board.net"), "utf8");
    } catch {
      throw new Error(`no netlist written: ${ran.error ?? ran.stderr.slice(0, 2_000)}`);
    }
  });
}

/** Heads of lists that version 5 has not, and of copper and drawings, which make no difference to what is joined. */
const LEFT_OUT = new Set(
  "generator setup stackup general paper title_block property attr pinfunction pintype model zone segment arc via gr_text gr_line gr_arc gr_circle gr_rect gr_poly dimension group image descr tags path remove_unused_layers keep_end_layers sheetname solder_mask_margin solder_paste_margin solder_paste_margin_ratio clearance zone_connect thermal_gap thermal_width fp_poly fp_line fp_circle fp_arc tstamp options primitives".split(
    " ",
  ),
);

function asVersion5(layout: string): string {
  const [head, ...items] = kept(parseSExpr(layout)) as readonly SExpr[];
  const rest = items.filter((item) => typeof item === "string" || item[0] !== "version");
  return written([head!, ["version", "20171130"], ["host", "pcbnew", "5.1.0"], ...rest], 0);
}

const kept = (item: SExpr): SExpr =>
  typeof item === "string"
    ? item
    : item
        .filter(
          (child) => child !== "locked" && (typeof child === "string" || !LEFT_OUT.has(String(child[0]))),
        )
        .map((child, index) => (index === 0 && child === "footprint" ? "module" : kept(child)));

const written = (item: SExpr, depth: number): string =>
  typeof item === "string"
    ? /^[\w.*/-]+$/.test(item)
      ? item
      : `"${item.replace(/["\\]/g, "\\$&")}"`
    : `${depth === 1 ? "\n" : ""}(${item.map((child) => written(child, depth + 1)).join(" ")})`;

const ONE_PAD = `(kicad_pcb (version 1) (layers (0 "F.Cu" signal) (31 "B.Cu" signal) (44 "Edge.Cuts" user)) (net 0 "")
  (footprint "R" (layer "F.Cu") (at 0 0) (fp_text reference "R1" (at 0 0) (layer "F.Cu"))
    (pad "1" thru_hole circle (at 1 1) (size 1.6 1.6) (drill 0.8) (layers "*.Cu"))))`;

export const PCB_RND_PRESENT = ((): boolean => {
  try {
    return asIpcD356(ONE_PAD).includes("\n999");
  } catch {
    return false;
  }
})();
