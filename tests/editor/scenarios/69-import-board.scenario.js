import assert from "node:assert/strict";
import { existsSync } from "node:fs";

const COMMAND = "Mendlog: Import a netlist or parts list into a board file";
const DIALOG = ".quick-input-widget";
const NETLIST = `(export (version "E")
  (components (comp (ref "U1") (value "74LS04")) (comp (ref "U2") (value "XYZ1234")) (comp (ref "R1") (value "4k7")))
  (nets (net (code "1") (name "+5V") (node (ref "U1") (pin "14")) (node (ref "R1") (pin "1")))
    (net (code "2") (name "GND") (node (ref "U1") (pin "7")) (node (ref "U2") (pin "1")))))
`;

export default {
  title:
    "a netlist becomes a board file that is not saved yet; a parts list completes it, and undo takes it back",
  workspace: null,
  files: {
    "halden.net": NETLIST,
    "bom.csv": "Ref;Value\nR1, R2;4k7\nU1;7404\n",
    "cut.net": NETLIST.slice(0, NETLIST.indexOf('"GND"')),
    "photo.net": new Uint8Array([137, 80, 78, 71, 0, 1]),
  },
  async run(editor) {
    const input = editor.page.locator(`${DIALOG} input.input`).first();
    const pick = async (name) => {
      await editor.command(COMMAND);
      await editor.until(
        "the question for the file",
        async () => (await input.isVisible()) && (await input.inputValue()).includes(editor.folder),
      );
      await input.fill(`${editor.folder}/${name}`);
      await editor.press("Enter");
    };
    const tabs = () => editor.page.locator(".tab").count();

    // Left at the first question: nothing.
    await editor.command(COMMAND);
    await editor.until("the question for the file", async () => input.isVisible());
    await editor.screenshot("import-which-file");
    await editor.press("Escape");
    await editor.page.waitForSelector(DIALOG, { state: "hidden" });
    assert.equal(await tabs(), 0);

    // What is no text is refused in words.
    await pick("photo.net");
    await editor.told("the refusal", /photo\.net was not imported: it holds binary data, not text/);
    assert.equal(await tabs(), 0);

    // In a workspace without a board file it is a new one, unsaved, with its place.
    await pick("halden.net");
    await editor.until("the board file", async () => /mendlog-board: 1/.test(await editor.editorText()));
    await editor.told(
      "what came in",
      /halden\.net is imported and not saved yet\. Parts: 3, nets: 2.*does not know: 1/,
    );
    const text = await editor.editorText();
    assert.match(text, /U1: \{ device: 74LS04 \}.*# netlist halden\.net, line 2/);
    assert.match(text, /grounds: \[GND\]/);
    assert.match(text, /"\+5V": \{ nominal: 5 V/);
    await editor.screenshot("import-new-board");
    assert.equal(existsSync(`${editor.folder}/halden.board.yaml`), false);
    await editor.save();
    await editor.until("the file", async () => existsSync(`${editor.folder}/halden.board.yaml`));
    const saved = editor.readFile("halden.board.yaml");

    // What is typed by hand stays when a parts list comes in, and one step of undo takes the list out again.
    await editor.goTo(3, 1);
    await editor.press("End");
    await editor.typeText(" # as on the label");
    await pick("bom.csv");
    await editor.until("the question where to", async () =>
      /Import into which board file/.test((await editor.page.locator(DIALOG).textContent()) ?? ""),
    );
    const rows = await editor.listed();
    assert.match(rows[0] ?? "", /halden\.board\.yaml/);
    assert.ok(rows.some((row) => /A new board file/.test(row)));
    await editor.screenshot("import-where");
    await editor.press("Enter");
    await editor.told("what came in", /bom\.csv is imported and not saved yet\. Parts: 3, nets: 0/);
    const merged = await editor.editorText();
    assert.match(merged, /title: halden # as on the label/);
    assert.match(merged, /R2: \{ value: 4k7 \}.*# parts list bom\.csv, line 2/);
    assert.match(merged, /U1: \{ device: 74LS04 \}/);
    await editor.screenshot("import-completed");
    await editor.press("Control+Z");
    await editor.until("the list to be gone", async () => !/R2:/.test(await editor.editorText()));
    assert.match(await editor.editorText(), /# as on the label/);
    assert.equal(editor.readFile("halden.board.yaml"), saved);

    // A file that was cut off says so, and what stood before is there.
    await pick("cut.net");
    await editor.until("the question where to", async () =>
      /Import into which board file/.test((await editor.page.locator(DIALOG).textContent()) ?? ""),
    );
    await editor.press("Enter");
    await editor.told("that it was cut off", /cut\.net was not read completely\. Parts: 3, nets: 1/);
  },
};
