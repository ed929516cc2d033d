import { describe, expect, it } from "vitest";
import { partTestPoint, pinNumber, pinTestPoint, resolvePin } from "../../server/src/judge/test-point";
import { boardIndex } from "../../server/src/knowledge/board-index";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { nearest } from "../../server/src/text/nearest";
import { BOARD } from "../support/judged";

const library = builtinLibrary();
const loaded = loadBoard(BOARD, { deviceOf: (part) => library.device(part)?.device });
const board = loaded.value;
if (!board) throw new Error("the trial board does not load");

const at = (ref: string, pin: string) => pinTestPoint(partTestPoint(ref, board, library), pin, board);

it.each(["14", "014", "pin 14", "Pins 14", "p14", "14 (VCC)", " 14"])("reads pin 14 from %j", (typed) => {
  expect(pinNumber(typed)).toBe("14");
});

it.each(["VCC", "14A", "", "1400", "A14"])("reads no pin number from %j", (typed) => {
  expect(pinNumber(typed)).toBeUndefined();
});

it("finds a pin of the device by number or by name, and none that is not there", () => {
  const device = library.device("74LS04")!.device;
  const found = (typed: string) => resolvePin(device, typed)?.number;
  expect(["14", "VCC", "vcc", "1Y", "pin 2"].map(found)).toEqual(["14", "14", "14", "2", "2"]);
  expect(["15", "0", "VDD", "", "15 (VCC)"].map(found)).toEqual([
    undefined,
    undefined,
    undefined,
    undefined,
    undefined,
  ]);
});

describe("a place on the board", () => {
  it("knows part, device, family, pin and net, however the designator is written", () => {
    expect(at("u1", "2A")).toMatchObject({
      ref: "U1",
      device: { id: "7404" },
      family: { id: "LS" },
      pin: { number: "3" },
      net: { name: "PULLED" },
    });
  });

  it("knows what a pin is tied to", () => {
    expect(at("U1", "13").tiedTo).toBe("ground");
    expect(at("U1", "9").tiedTo).toEqual({ rail: "+5V", volts: 5 });
    expect(at("U1", "3").tiedTo).toBeUndefined();
  });

  it("finds the net of a part without a device, by number or by letters", () => {
    expect(at("C1", "2").net?.name).toBe("GND");
    expect(at("J1", "a3").net?.name).toBe("HEADER");
    expect(at("J1", "A9").net).toBeUndefined();
  });

  it("is only what was typed where the board does not list it", () => {
    expect(at("U99", "1")).toEqual({ ref: "U99", pinTyped: "1" });
    expect(pinTestPoint(partTestPoint("U1", undefined, library), "1", undefined)).toEqual({
      ref: "U1",
      pinTyped: "1",
    });
  });
});

it("indexes a board once", () => {
  expect(boardIndex(board)).toBe(boardIndex(board));
  const index = boardIndex(board);
  const net = index.net("q9", "1");
  expect(net).toBeUndefined();
  const ground = index.net("u1", "7");
  expect(ground && index.isGround(ground)).toBe(true);
  expect(ground && index.railOf(ground)).toBeUndefined();
});

describe("the nearest of several", () => {
  it.each([
    ["U41", ["U4", "U14", "U40"], "U14"],
    ["Diod check", ["Diode check", "Dial check"], "Diode check"],
    ["diagnosting", ["diagnosing", "repairing"], "diagnosing"],
    ["exmaple", ["example"], "example"],
    ["EXAMPLE", ["example"], "example"],
    ["zzz", ["example"], undefined],
    ["U9", ["R12"], undefined],
    ["", ["A"], undefined],
  ])("%s in %j is %s", (typed, candidates, wanted) => {
    expect(nearest(typed, candidates)).toBe(wanted);
  });

  it("takes the earlier of two as near", () => {
    expect(nearest("U1", ["U2", "U3"])).toBe("U2");
  });
});
