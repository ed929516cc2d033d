// What each kind of table says of a fault, on the demo's boards: the cause leads, and the next reading is at its pins.
import { describe, expect, test } from "vitest";
import { diagnosedInDemo as diagnosed } from "../../support/diagnosed";
import { table } from "../../support/tables";

const levels = (...rows: readonly string[]): string => table("Logic levels", "Ref | Pin | Reading", ...rows);

describe("causes travel up", () => {
  test("a clock that stands still is its crystal before all", async () => {
    const { first, next } = await diagnosed(
      "controller",
      "blank-display",
      table("Frequency", "Ref | Pin | Reading", "U1 | 37 | 0 Hz", "U1 | 38 | 0 Hz"),
    );
    expect(first[0]).toBe("Y1");
    expect(next).toMatchObject({ kind: "swap", ref: "Y1" });
  });

  test("a reset held low with its comparator's input right is the buffer between", async () => {
    const rows = [
      "U1 | 40 | 0.1 V",
      "U14 | 5 | 4.9 V",
      "U14 | 6 | 0.1 V",
      "U14 | 9 | 0.1 V",
      "U14 | 8 | 0.1 V",
    ];
    const { first, signs } = await diagnosed("controller", "blank-display", levels(...rows));
    expect(signs).toContain("reset-held");
    expect(first[0]).toBe("U14");
  });
});

describe("rails by their nets", () => {
  const short = table("Resistance to ground", "Rail | Reading", "+5V | 150 ohm", "+12V | 0.4 ohm");

  test("a short on +12 V accuses nothing on +5 V", async () => {
    const { first } = await diagnosed("controller", "no-sound", short);
    expect(first[0]).toBe("C14");
    expect(first).not.toContain("C13");
  });

  test("a short that is gone with a part is that part", async () => {
    const gone = table("Resistance to ground, C14 out", "Rail | Reading", "+12V | 11.8 k");
    const { first, next } = await diagnosed("controller", "no-sound", short, gone);
    expect(first[0]).toBe("C14");
    expect(next?.ref).toBe("C14");
  });

  test("a good input and a wrong output are the regulator", async () => {
    const rows = ["+5V | 2.1 V | 10 mV", "+5V raw | 11.4 V | 0.9 V"];
    const { first } = await diagnosed(
      "driver",
      "logic-supply-low",
      table("Supply rails, loaded", "Rail | Reading | Ripple", ...rows),
    );
    expect(first[0]).toBe("VR1");
  });
});

describe("opens", () => {
  test("a ground pin that floats up is its joint, and not the chip", async () => {
    const rows = [
      "U13 | 1 | 4.9 V",
      "U13 | 2 | 4.3 V",
      "U13 | 3 | 4.9 V",
      "U13 | 4 | 4.3 V",
      "U13 | 7 | 3.1 V",
    ];
    const { first, next } = await diagnosed("controller", "row-dead", levels(...rows));
    expect(first[0]).toBe("the joint of U13 pin 7");
    expect(next).toMatchObject({ kind: "continuity", ref: "U13", pin: "7" });
  });

  test("a header pin that reads open where the chip conducts is the way between", async () => {
    const { first, signs } = await diagnosed(
      "controller",
      "row-dead",
      table("Diode check", "Ref | Pin | Reading", "U13 | 5 | 0.55", "J3 | 3 | OL"),
    );
    expect(signs).toEqual(["net-open"]);
    expect(first).toContain("the joint of J3 pin 3");
  });
});

describe("every table is heard", () => {
  test.each<[string, string, "controller" | "driver", string, string]>([
    [
      "a bit that fails at many addresses",
      "U8",
      "controller",
      "error-3",
      table(
        "Memory test",
        "Address | Wrote | Read | Result",
        "0000 | FF | BF | fail",
        "0123 | FF | BF | fail",
      ),
    ],
    [
      "a wrong image",
      "U2",
      "controller",
      "error-1",
      table("ROM check", "Ref | CRC-32 | Sum", "U2 | 12345678 | 1234", "U3 | 37ea80c5 | 9c28"),
    ],
    [
      "a chip that failed by itself",
      "U8",
      "controller",
      "error-3",
      table("Chip test", "Ref | Part | Result", "U7 | 2114 | pass", "U8 | 2114 | fail"),
    ],
    [
      "the diode column of the coils",
      "D3",
      "driver",
      "coil-stuck",
      table("Coil resistance", "Ref | Pin | Item | Reading | Diode", "J5 | 3 | starter gun | 9.8 ohm | OL"),
    ],
  ])("%s", async (_, cause, board, symptom, text) => {
    expect((await diagnosed(board, symptom, text)).first[0]).toBe(cause);
  });

  test("a chip that passed in its place is behind one that did not", async () => {
    const text = table("Memory test", "Ref | Result", "U7 | fail", "U8 | pass");
    const { first } = await diagnosed("controller", "error-3", text);
    expect(first[0]).toBe("U7");
    expect(first).not.toContain("U8");
  });
});

test("a probe without its supply is the first thing to set right", async () => {
  const pins = ["1", "2", "3", "7", "9", "16", "8"];
  const text = table("Logic states", "Ref | Pin | State", ...pins.map((pin) => `U4 | ${pin} | floating`));
  const { first, next } = await diagnosed("controller", "error-3", text);
  expect(first[0]).toBe("the states of U4: the probe was off ground or without its supply");
  expect(next).toMatchObject({ kind: "table-again", ref: "U4" });
});

describe("the next reading", () => {
  test("settles a suspect that is as good as certain, whatever else would be quicker", async () => {
    const ripple = table(
      "Supply rails, loaded",
      "Rail | Reading | Ripple | Ripple frequency",
      "+5V | 4.66 V | 380 mV | 100 Hz",
      "+5V raw | 8.6 V | 3.6 V | 100 Hz",
    );
    const { first, next } = await diagnosed("driver", "logic-supply-low", ripple);
    expect(first[0]).toBe("C1");
    expect(next).toMatchObject({ kind: "capacitance-esr", ref: "C1" });
  });

  test("swaps a chip in a socket that is likeliest, whatever its neighbours would tell", async () => {
    const { first, next } = await diagnosed(
      "controller",
      "blank-display",
      levels("U1 | 40 | 0.1 V", "U14 | 5 | 4.9 V", "U14 | 6 | 0.1 V", "U14 | 9 | 0.1 V", "U14 | 8 | 0.1 V"),
    );
    expect(first[0]).toBe("U14");
    expect(next).toMatchObject({ kind: "swap", ref: "U14" });
  });
});

describe("supplies and what was read on them", () => {
  test("a rail that still stands up with the power off is a board that was not discharged", async () => {
    const { first, next } = await diagnosed(
      "controller",
      "counters-lost",
      table(
        "Resistance to ground",
        "Rail | Reading | Reversed",
        "+5V | 152 ohm | 149 ohm",
        "VMEM | OL | 0.1 ohm",
      ),
      table("Supply rails", "Rail | Reading | Note", "VMEM | 3.4 V | not powered"),
    );
    expect(first[0]).toMatch(/VMEM.*still charged/);
    expect(next).toMatchObject({ kind: "table-again", ref: "VMEM" });
    expect(next?.action).toMatch(/discharge/);
  });

  test("a backup rail that sags with the power off is no charge left by mistake", async () => {
    const { first } = await diagnosed(
      "controller",
      "counters-lost",
      table("Supply rails", "Rail | Reading | Note", "VMEM | 1.2 V | ten minutes after switch-off"),
    );
    expect(first.join()).not.toMatch(/charged/);
  });

  test("a regulator whose output stands where its input does is shorted through, on a negative rail too", async () => {
    const { first } = await diagnosed(
      "driver",
      "hum",
      table("Supply rails", "Rail | Reading | Ripple", "+5V | 5.01 V | 12 mV", "-12V | -20.9 V | 410 mV"),
      table("Voltages at pins", "Ref | Pin | Reading", "VR3 | 2 | -21.0 V", "VR3 | 3 | -20.9 V"),
    );
    expect(first[0]).toBe("VR3");
  });

  test("a dead negative rail is heard though its reading has the other sign", async () => {
    const { signs } = await diagnosed(
      "driver",
      "hum",
      table("Supply rails", "Rail | Reading", "+5V | 5.01 V", "+12V | 12.0 V", "-12V | 0.01 V"),
    );
    expect(signs).toContain("rail-wrong");
  });

  test("no beep across a fuse is the fuse, before the bridge behind it", async () => {
    const { first } = await diagnosed(
      "driver",
      "hum",
      table(
        "Supply rails, loaded",
        "Rail | Reading | Ripple | Ripple frequency",
        "+12V | 11.9 V | 160 mV | 50 Hz",
        "-12V | -11.8 V | 190 mV | 50 Hz",
      ),
      table("Continuity", "From | To | Reading", "J1-3 | BR2-2 | 0.1 ohm", "J1-5 | BR2-3 | OL"),
    );
    expect(first[0]).toBe("F3");
  });

  test("a board on which nothing read wrong is asked how it is set", async () => {
    const { first, next } = await diagnosed(
      "controller",
      "race starts without a coin",
      table("Settings", "Bank | 1 | 2", "SW1 | on | on"),
      table("Supply rails", "Rail | Reading", "+5V | 5.03 V"),
    );
    expect(first).toEqual(["the setting of SW1"]);
    expect(next).toMatchObject({ kind: "inspection", ref: "SW1" });
  });
});
