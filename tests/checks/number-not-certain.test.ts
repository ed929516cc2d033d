// A number in a log that may be two parts: no pin is judged by it, the log is told why, and what is meant is one fix away.
import { expect, test } from "vitest";
import { checkCompletion, hoverTextAt } from "../support/features";
import { openWorld } from "../support/workspace";

const log = (device: string, pin = "7") =>
  `---\nmendlog: 1\nboard: trial\n---\n\n## Diode check\n\n| Ref | Device | Pin | Reading |\n|---|---|---|---|\n| U5 | ${device} | ${pin} | 0.02 |\n`;

async function findings(device: string) {
  const { service } = await openWorld(`//- log.md\n${log(device)}`);
  const uri = "mem:/ws/log.md";
  return service
    .findings(uri)
    .map((finding) => ({ finding, titles: service.fixes(uri, finding).map(({ title }) => title) }));
}

test("the finding says what it may be and offers the number that is certain", async () => {
  const found = (await findings("MC4024P")).filter(({ finding }) => finding.code !== "unknown-board");
  expect(found.map(({ finding }) => finding.code)).toEqual(["number-not-in-library"]);
  expect(found[0]?.finding.message).toBe(
    'It is not certain what "MC4024P" is, so U5 is not judged by its pins. MC4024 is dual voltage-controlled oscillator, TTL (Motorola); 4024 without letters is seven-stage ripple counter. Read the part again; if it is that one, write 4024.',
  );
  expect(found[0]?.titles).toContain("Change to 4024");
});

test.each(["CD4024BE", "MC14024BCP", "4024"])("%s is certain: no such finding", async (device) => {
  expect((await findings(device)).map(({ finding }) => finding.code)).not.toContain("number-not-in-library");
});

const over = (device: string) => hoverTextAt(`//- log.md\n${log(device)}`);

test("the hover of such a number says that it is not certain what it is", async () => {
  expect(await over("TIL$0311")).toMatchInlineSnapshot(`
    "[TIL311]
    It is not certain what **TIL311** is, so nothing is judged by its pins: TIL311 is hexadecimal display with its own logic (Texas Instruments); 311 without letters is comparator, uncommitted output. Read the part again; if it is that one, write LM311."
  `);
});

test("the hover of a bare number says what a maker's letters make of it, and of one with letters does not", async () => {
  const bare = await over("40$016");
  expect(bare).toContain("switch");
  expect(bare).toContain("TMS4016: Static RAM, 2048 by 8 (Texas Instruments)");
  expect(await over("CD40$016BE")).not.toContain("TMS4016");
  expect(bare).toMatchInlineSnapshot(`
    "[4016]
    **4016** Quad bilateral switch

    DIP-14 · 4000-series CMOS

    ⚠ **Caution:** Switches carry signal both ways: keep the signal between the supply pins.

    With other letters the number is another part. UPD4016: Static RAM, 2048 by 8, or the switch of the CMOS logic (NEC); D4016: Static RAM, 2048 by 8, or the switch of the CMOS logic (NEC); TMS4016: Static RAM, 2048 by 8 (Texas Instruments)

    **Substitutes**
    - 4066: Same pins, lower on-resistance: usually a step up.

    *Source: from memory; pin numbers, supply and direction compared with the KiCad symbol library*"
  `);
});

test("completion offers what is certain for what is typed and is not", async () => {
  const { item } = await checkCompletion(`//- log.md\n${log("MC4024$0")}`, "4024 | if it is that");
  expect(item("4024").documentation).toContain("not certain");
});
