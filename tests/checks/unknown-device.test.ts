import { describe, expect, test } from "vitest";
import { loadDevice } from "../../server/src/knowledge/load-device";
import { applyEdits } from "../../server/src/text/edits";
import { boardHead } from "../support/boards";
import { openWorld } from "../support/workspace";

const HEAD = boardHead("t");
const URI = "mem:/ws/boards/t.board.yaml";

async function board(rest: string, others = "") {
  const text = HEAD + rest;
  const { service } = await openWorld(`${others}//- boards/t.board.yaml\n${text}`);
  return service
    .findings(URI)
    .filter(({ code }) => code === "unknown-device")
    .map((finding) => {
      const fixes = service.fixes(URI, finding);
      const after = (title: string) => {
        const fix = fixes.find((one) => one.title === title);
        if (!fix) throw new Error(`no fix "${title}" among ${fixes.map((one) => one.title).join(", ")}`);
        return applyEdits(text, fix.edits);
      };
      return { finding, fixes, titles: fixes.map(({ title }) => title), made: after };
    });
}

const one = async (device: string, more = "", rest = "") =>
  (await board(`parts:\n  U9: { device: ${device}${more} }\n${rest}`))[0];

test("a number nobody knows is said, with what it means for the readings", async () => {
  const found = await one("74LS999");
  expect(found?.finding.severity).toBe("information");
  expect(found?.finding.message).toBe(
    'The library does not know "74LS999", so U9 is not judged by pin. Look at the number again, or describe the device in a file of its own.',
  );
  expect(found?.titles).toEqual(["Begin a device file for 74LS999 with 14 pins"]);
});

test.each([
  ["74LSO4", "74LS04", "{ device: 74LS04 }"],
  ['"74O4"', "7404", '{ device: "7404" }'],
  ["74SL04", "74LS04", "{ device: 74LS04 }"],
])("%s is a slip for %s", async (typed, meant, written) => {
  const found = await one(typed);
  expect(found?.finding.message).toContain(`Did you mean ${meant}?`);
  expect(found?.fixes[0]?.preferred).toBe(true);
  expect(found?.made(`Change to ${meant}`)).toContain(`U9: ${written}\n`);
});

test("a number that is not typed to its end offers the few that begin so, none of them before the others", async () => {
  const found = await one('"682"');
  expect(found?.titles.slice(0, 2)).toEqual(["Change to 6820", "Change to 6821"]);
  expect(found?.fixes.some(({ preferred }) => preferred)).toBe(false);
  expect(found?.made("Change to 6821")).toContain('{ device: "6821" }');
  // Of many none is likelier than another.
  expect((await one("74LS24"))?.titles).toEqual(["Begin a device file for 74LS24 with 14 pins"]);
});

test("a word is no number: it is offered as the value, unless there is one", async () => {
  const found = await one("relay");
  expect(found?.titles).toEqual(["Write it as the value"]);
  expect(found?.made("Write it as the value")).toContain("U9: { value: relay }\n");
  expect((await one("relay", ", value: 12 V"))?.titles).toEqual([]);
});

test.each(["SN74LS04N", "MC6802P", "74H00", "LS138", "zener", "led", "crystal", "bridge-rectifier", '""'])(
  "%s is left alone",
  async (device) => {
    expect(await one(device)).toBeUndefined();
  },
);

test("values are not devices", async () => {
  expect(
    await board("parts:\n  K1: { value: relay }\n  R1: { value: 4k7 }\n  U1: { value: 74LS999 }\n"),
  ).toEqual([]);
});

test("a number on several parts is one finding, and mended in all of them", async () => {
  const found = await board(
    "parts:\n  U1: { device: 74LSO4 }\n  U2: { device: 74LSO4 }\n  U3: { device: 74LSO4 }\n",
  );
  expect(found).toHaveLength(1);
  expect(found[0]?.finding.message).toContain("so U1 and 2 others are not judged");
  expect(found[0]?.finding.related?.map(({ message }) => message)).toEqual([
    "U2 has it too",
    "U3 has it too",
  ]);
  expect(found[0]?.made("Change to 74LS04")).not.toContain("LSO4");
});

describe("a device file begun", () => {
  const begun = async (more: string, rest = "", others = "") => {
    const [found] = await board(`parts:\n  U9: { device: XC-7${more} }\n${rest}`, others);
    const fix = found?.fixes.find(({ creates }) => creates);
    return { title: fix?.title, ...fix?.creates };
  };

  test.each([
    ["of the case", ", package: DIP-16", "", 16],
    [
      "of the case, though a lower pin is the highest on a net",
      ", package: DIP-20",
      "nets:\n  A: [U9.18]\n",
      20,
    ],
    [
      "of the smallest case with the highest pin on a net",
      "",
      "nets:\n  A: [U9.3, U9.17]\n  B: [U9.2]\n",
      18,
    ],
    ["of a transistor's case", ", package: TO-92", "", 3],
    ["as most have", "", "", 14],
  ])("has the pins %s", async (_, more, rest, pins) => {
    const { title, text = "", uri } = await begun(more, rest);
    expect(title).toBe(`Begin a device file for XC-7 with ${pins} pins`);
    expect(uri).toBe("mem:/ws/boards/XC-7.device.yaml");
    const { value, problems } = loadDevice(text);
    expect(problems).toEqual([]);
    expect(value?.pins.size).toBe(pins);
  });

  test.each(["XC-7", '"7O4"', "9602 A/B"])(
    "is known from then on, and leaves the board file without the finding: %s",
    async (device) => {
      const [before] = await board(`parts:\n  U9: { device: ${device} }\n`);
      const made = before?.fixes.find(({ creates }) => creates)?.creates;
      const path = decodeURIComponent(made?.uri.replace("mem:/ws/", "") ?? "");
      expect(await board(`parts:\n  U9: { device: ${device} }\n`, `//- ${path}\n${made?.text}`)).toEqual([]);
    },
  );

  test("stands beside those there are", async () => {
    const own = (await begun("")).text?.replaceAll("XC-7", "XC-8");
    const at = async (path: string) => (await begun("", "", `//- ${path}\n${own}`)).uri;
    expect(await at("boards/devices/a.device.yaml")).toBe("mem:/ws/boards/devices/XC-7.device.yaml");
    expect(await at("devices/a.device.yaml")).toBe("mem:/ws/devices/XC-7.device.yaml");
  });
});

test.each([
  [
    "UDN2114",
    'It is not certain what "UDN2114" is, so U9 is not judged by pin. UDN comes before display and peripheral drivers (Sprague and Allegro); 2114 without letters is static RAM, 1024 by 4. Read the part again; if it is that one, write 2114.',
    ["Change to 2114", "Begin a device file for UDN2114 with 14 pins"],
  ],
  [
    '"9316"',
    'It is not certain what "9316" is, so U9 is not judged by pin',
    ["Change to 74161", "Change to 2316", "Begin a device file for 9316 with 14 pins"],
  ],
  [
    "TIL311",
    "TIL311 is hexadecimal display with its own logic (Texas Instruments); 311 without letters is comparator",
    ["Change to LM311", "Begin a device file for TIL311 with 14 pins"],
  ],
])("%s is not certain, and told so", async (typed, message, titles) => {
  const found = await one(typed);
  expect(found?.finding.message).toContain(message);
  expect([...(found?.titles ?? [])].sort()).toEqual([...titles].sort());
});

test.each(["TMS4016", "CD4016BE", "MK4027N-3", "MC14024BCP", "'SN74LS04N 8134'"])(
  "%s is certain",
  async (typed) => {
    expect(await one(typed)).toBeUndefined();
  },
);
