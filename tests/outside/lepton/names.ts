// Which lepton-eda symbol stands for which of our devices.

/** Symbols for devices whose number alone does not lead to one, a line a folder: `device=symbol`. */
const DRAWN: Readonly<Record<string, string>> = {
  "4000": "4000=4000-2 4526=4522-1",
  "74": "74LS51=7451-1 74LS54=7454-1 74LS78=7478-1 9602=9602-1",
  linear:
    "LM377=lm1877-1 7818=lm7818-1 L200=l200-1 LM2941=lm2941-1 LM723=lm723-1 LM319=lm319-1 LM311=lm311-1 LM324=lm324-1 LM339=lm339-1 LM358=lm358-1 LM386=lm386-1 LM393=lm393-1 555=lm555-1 741=lm741-1 LM317=lm317-1 LM337=lm337-1 7805=lm7805-1 7806=lm7806-1 7812=lm7812-1 7815=lm7815-1 7824=lm7824-1 7912=lm7912-1",
  maxim: "MAX232=max232-1",
  memory:
    "82S131=am27S13D-1 82S23=N82S23N-1 27C020=27C2001-1 93C46=93Cx6-1 9306=93Cx6-1 27256=27256-1 27512=27512-1 2732=2732-1 4164=4164-1 62256=62256-1 6116=am9128-1 6264=HM6264P15-1",
  micro:
    "8031=8031 8052=8052basic-1 Z80-PIO=z80pio-1 8253=8254-1 8255=8255A-1 8259=8259A-1 8086=8086-1 8088=8088-1 6821=6821-1",
  misc: "9368=DM9368 MC3487=mc3487-1 ICL7660=icl7660-1 MC34063=MC34063-1 TL062=tl062-1 TL072=tl072-1 TL082=tl082-1 1458=tl072-1",
  national: "75176=DS75176-1 26LS31=DS26LS31-1 26LS32=DS26C32-2 MC1408=DAC0808-1 ADC0804=ADC0804-1",
  opto: "4N25=4N25-1 4N33=4N29-1 6N135=6N135-1 6N136=6N136-1 6N137=6n137-1 CNY17=CNY17-1 PC817=ps2501-1",
  pla: "82S100=N82S100N-1 82S101=N82S100N-1 PAL16L8=PAL16L8-1",
  supervisor: "MAX707=adm707",
  transistor: "ULN2003=ULN2003-1 ULN2801=ULN2801A-1",
};

const SYMBOL_OF: ReadonlyMap<string, string> = new Map(
  Object.entries(DRAWN).flatMap(([folder, words]) =>
    words.split(" ").map((word) => {
      const [id = "", symbol = ""] = word.split("=");
      return [id, `${folder}/${symbol}`] as const;
    }),
  ),
);

/** The symbol of a device, whether there is one or not; undefined for numbers that lead to none. */
export function symbolName(id: string): string | undefined {
  const named = SYMBOL_OF.get(id);
  if (named !== undefined) return named;
  // Drawn there with the pins of the LS part.
  if (id === "7451" || id === "7454") return undefined;
  if (/^74\d{2,3}$/.test(id)) return `74/${id}-1`;
  if (/^4\d{3,4}$/.test(id)) return `4000/${id}-1`;
  return undefined;
}
