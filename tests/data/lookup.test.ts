// Part numbers as they are printed on parts must reach the entry whose pins they have.
import { describe, expect, test } from "vitest";
import { builtinLibrary } from "../../server/src/knowledge/library";

describe("numbers as printed", () => {
  test.each([
    ["7404", "7404", "TTL"],
    ["SN74LS04N", "7404", "LS"],
    ["74LS51", "74LS51", "LS"],
    ["7451", "7451", "TTL"],
    ["74LS54", "74LS54", "LS"],
    ["SN7454N", "7454", "TTL"],
    ["SN74LS51N", "74LS51", "LS"],
    ["DM74LS54N", "74LS54", "LS"],
    ["74HC51", "74LS51", "HC"],
    ["74S51", "7451", "S"],
    ["74HC4051", "4051", "HC"],
    ["CD4051BE", "4051", "4000"],
    ["HEF4001BP", "4001", "4000"],
    ["MC14511BCP", "4511", "4000"],
    ["8T97", "74367", "TTL"],
    ["74S288", "82S123", "bipolar"],
    ["MC6821P", "6821", "NMOS"],
    ["6820", "6821", "NMOS"],
    ["27C256", "27256", "NMOS"],
    ["NE555P", "555", "bipolar"],
    ["SN75451BP", "75451", "bipolar"],
    ["2N2222A", "2N2222", "NPN"],
    ["TIP31C", "TIP31", "NPN"],
    ["LM7805CT", "7805", "regulator"],
    ["1N4733A", "1N4733", "diode"],
  ])("%s is %s in family %s", (typed, id, family) => {
    const match = builtinLibrary().device(typed);
    expect(match?.device.id).toBe(id);
    expect(match?.family?.id).toBe(family);
  });
});
