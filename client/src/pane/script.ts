// What runs in the page: it shows what it is sent and says it aloud where that is switched on. It reads nothing back.
export const SCRIPT = `
const vscode = acquireVsCodeApi();
const shown = document.getElementById("shown");
const said = document.getElementById("said");
const TONES = { calm: [[880, .12]], doubt: [[520, .15], [520, .15]], alarm: [[260, .25], [260, .25], [260, .25]] };
let audio;
function sound(level) {
  audio ??= new AudioContext();
  let at = audio.currentTime;
  for (const [pitch, length] of TONES[level] ?? TONES.calm) {
    const tone = audio.createOscillator();
    const gain = audio.createGain();
    gain.gain.value = .2;
    tone.frequency.value = pitch;
    tone.connect(gain).connect(audio.destination);
    tone.start(at);
    tone.stop(at + length);
    at += length + .08;
  }
}
function speak(text, language) {
  if (!("speechSynthesis" in window)) return;
  speechSynthesis.cancel();
  const words = new SpeechSynthesisUtterance(text);
  words.lang = language;
  speechSynthesis.speak(words);
}
window.addEventListener("message", ({ data }) => {
  shown.innerHTML = data.body;
  if (data.speech !== said.textContent) said.textContent = data.speech;
  document.documentElement.lang = data.language;
  if (data.cue === "sound") sound(data.level);
  if (data.cue === "speech") speak(data.speech, data.language);
});
vscode.postMessage("ready");
`;
