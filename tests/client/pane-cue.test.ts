// What the pane lets be heard: the page's own script, run with a sound card and a voice that write down what they are told.
import { expect, test } from "vitest";
import { type CueSetting, cueNow } from "../../client/src/pane/cue";
import { SCRIPT } from "../../client/src/pane/script";

interface Heard {
  readonly tones: readonly (readonly [pitch: number, length: number])[];
  readonly spoken: readonly (readonly [text: string, language: string])[];
  readonly said: string;
  readonly body: string;
  readonly posted: readonly unknown[];
}

/** The page with the messages it is sent; `mute` is a computer without a voice. */
function page(messages: readonly object[], { mute = false } = {}): Heard {
  const tones: [number, number][] = [];
  const spoken: [string, string][] = [];
  const posted: unknown[] = [];
  const elements = { shown: { innerHTML: "" }, said: { textContent: "" } };
  class Card {
    readonly currentTime = 0;
    readonly destination = {};
    createOscillator() {
      const tone = { frequency: { value: 0 }, began: 0 };
      return Object.assign(tone, {
        connect: (to: unknown) => to,
        start: (at: number) => {
          tone.began = at;
        },
        stop: (at: number) =>
          void tones.push([tone.frequency.value, Math.round((at - tone.began) * 100) / 100]),
      });
    }
    createGain() {
      return { gain: { value: 1 }, connect: (to: unknown) => to };
    }
  }
  class Utterance {
    lang = "";
    constructor(readonly text: string) {}
  }
  const voice = {
    cancel: () => void spoken.splice(0),
    speak: ({ text, lang }: Utterance) => void spoken.push([text, lang]),
  };
  let listener: (event: { data: object }) => void = () => {};
  const window = {
    addEventListener: (_: string, heard: typeof listener) => {
      listener = heard;
    },
    ...(mute ? {} : { speechSynthesis: voice }),
  };
  const document = {
    getElementById: (id: keyof typeof elements) => elements[id],
    documentElement: { lang: "" },
  };
  const api = () => ({ postMessage: (message: unknown) => posted.push(message) });
  const names = [
    "acquireVsCodeApi",
    "document",
    "window",
    "AudioContext",
    "SpeechSynthesisUtterance",
    "speechSynthesis",
  ];
  new Function(...names, SCRIPT)(api, document, window, Card, Utterance, voice);
  for (const data of messages) listener({ data });
  return { tones, spoken, said: elements.said.textContent, body: elements.shown.innerHTML, posted };
}

const message = (cue: CueSetting, level = "calm") => ({
  body: "<p>0.58</p>",
  speech: "0.58: Within limits. Next: U14 pin 3.",
  language: "en",
  level,
  cue,
});

test("it asks for what there is to show, and is silent unless told otherwise", () => {
  const { tones, spoken, said, body, posted } = page([message("off")]);
  expect(posted).toEqual(["ready"]);
  expect([tones, spoken]).toEqual([[], []]);
  // A screen reader is told in any case.
  expect([said, body]).toEqual(["0.58: Within limits. Next: U14 pin 3.", "<p>0.58</p>"]);
});

test("each level of verdict has a sound of its own, told by pitch and by number", () => {
  const sounds = ["calm", "doubt", "alarm"].map((level) => page([message("sound", level)]).tones);
  expect(sounds.map((tones) => tones.length)).toEqual([1, 2, 3]);
  expect(new Set(sounds.map(([tone]) => tone?.[0])).size).toBe(3);
  expect(sounds.flat().every(([, length]) => length > 0)).toBe(true);
});

test("speech says the verdict and the pin in the editor's language, the last of two alone", () => {
  expect(page([message("speech"), { ...message("speech"), speech: "OL.", language: "de" }]).spoken).toEqual([
    ["OL.", "de"],
  ]);
});

test("a computer without a voice shows all the same", () => {
  const { spoken, body } = page([message("speech")], { mute: true });
  expect([spoken, body]).toEqual([[], "<p>0.58</p>"]);
});

test("a sound comes with the reading, speech with the pin after it, and neither with both", () => {
  const heard = (cue: CueSetting) => [cueNow(cue, true), cueNow(cue, false)];
  expect(heard("sound")).toEqual(["sound", "off"]);
  expect(heard("speech")).toEqual(["off", "speech"]);
  expect(heard("off")).toEqual(["off", "off"]);
});
