import { expect, test } from "vitest";
import { type PaneContent, type PaneWords, paneBody, panePage, paneSpeech } from "../../client/src/pane/html";
import { VERDICT_MARKS, VERDICTS, verdictShape } from "../../server/src/pictures/marks";

const WORDS: PaneWords = {
  title: "The reading just taken",
  noReading: "No reading yet",
  next: "Next",
  nothingNext: "Nothing more to read",
  expect: "Expect",
  caution: "Caution:",
};
const TAKEN: PaneContent = {
  reading: {
    text: "1.42",
    verdict: "out-of-limits",
    shape: "<svg></svg>",
    words: "Out of limits",
    sentence: "High.",
  },
  next: {
    title: "U14 pin 7",
    name: "GND",
    expect: "at most 50 mV",
    cautions: ["Power off."],
    picture: { svg: "<svg id='p'></svg>", alt: "U14" },
  },
};

test("the reading with its verdict in word and shape, the pin with what to expect, the caution, the drawing", () => {
  const body = paneBody(TAKEN, WORDS);
  const order = [
    "1.42",
    "<svg></svg>",
    "Out of limits",
    "U14 pin 7",
    "GND",
    "at most 50 mV",
    "Power off.",
    "<svg id='p'>",
  ];
  const places = order.map((text) => body.indexOf(text));
  expect(places).toEqual([...places].sort((a, b) => a - b));
  expect(places).not.toContain(-1);
});

test("before anything was read, and with nothing left, it says so", () => {
  expect(paneBody({}, WORDS)).toContain("No reading yet");
  expect(paneBody({}, WORDS)).toContain("Nothing more to read");
});

test("what was typed is text and nothing else", () => {
  const bad = '<img src=x onerror="alert(1)">';
  const body = paneBody(
    {
      reading: { text: bad, verdict: 'a"><b>', shape: "", words: bad, sentence: bad },
      next: { title: bad, name: bad, expect: bad, action: bad, cautions: [bad] },
    },
    { ...WORDS, next: bad },
  );
  expect(body).not.toContain("<img");
  expect(body).not.toContain("<b>");
});

test("aloud the verdict comes first, and a caution before the pin", () => {
  expect(paneSpeech(TAKEN, WORDS)).toBe(
    "1.42: Out of limits. Power off. Next: U14 pin 7, GND. Expect at most 50 mV.",
  );
  expect(paneSpeech({}, WORDS)).toBe("");
});

test("each verdict that accuses has a shape of its own", () => {
  const shapes = VERDICTS.map(verdictShape);
  expect(new Set(shapes).size).toBe(new Set(VERDICTS.map((verdict) => VERDICT_MARKS[verdict].glyph)).size);
  for (const shape of shapes) expect(shape).toMatch(/<svg [^>]+><(?:path|circle)/);
});

test("the page loads nothing and runs only what it came with", () => {
  const page = panePage("T<", "p{}", "x()", "abc");
  expect(page).toContain("default-src 'none'; style-src 'nonce-abc'; script-src 'nonce-abc'");
  expect(page).toContain("<title>T&lt;</title>");
  expect(page).not.toMatch(/https?:|src=/);
});
