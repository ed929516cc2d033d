// Part numbers as they stand on parts of such boards, with case, grade and date code, and the device that each is: from
// memory of makers' data books, unless a symbol library names the number itself. `?` is one that is not certain, with
// what it may be behind it; `-` is one that the library knows nothing of.
import { describe, expect, test } from "vitest";
import { builtinLibrary } from "../../server/src/knowledge/library";

const CERTAIN = `
SN7404N 7404            SN74LS04N 7404          SN74LS04N_8134 7404     8134_SN74LS04N 7404
DM74LS138N 74138        MC74HC595AN 74595       N74LS244N 74244         T74LS74B1 7474
HD74LS00P 7400          MB74LS32 7432           M74LS138P 74138         SN7404N8134 7404
F74LS245N 74245         GD74LS08 7408           UCY7400N 7400           MH7474 7474
MIC7400N 7400           ITT7402N 7402           US7400A 7400            SN5404J 7404
TI_SN7447AN 7447        SN74S288N 82S123        HD7406P 7406            TC74HC14AP 7414
MM74HC00N 7400          IDT74FCT245P 74245    74F138PC 74138          DM8602N 9602
CD4011BE 4011           CD4016AE 4016           HEF4016BP 4016          MC14016BCP 4016
HCF4066BE 4066          TC4069UBP 4069          MC14011BCP 4011         HD14584B 40106
MB84011B 4011           UPD4011BC 4011          μPD4066C 4066           F34011PC 4011
F4027BPC 4027          SCL4001BE 4001          MSM4040RS 4040          MN4013B 4013
BU4066B 4066            CD4024BE 4024           MC14024BCP 4024         CD4044BE 4044
MC14490P 14490          MC14175BCP 40175        CD40106BE 40106         CD4007UBE 4007
TMS4016-15NL 6116       TMS4044-25NL TMS4044    TMS4027-15JL MK4027     TMS4116-15NL 4116
TMS4164-15NL 4164       TMS2716JL TMS2716       TMS2516JL-45 2516       TMS2532JL-35 2532
TMS2532A-45JL 2532      TMS4045-20NL 2114       TMS4039NL 2101          TMS4060-JL 2107
MK4027N-3 MK4027        MK4116N-3 4116          MK4116P-2 4116          MK4564N-15 4164
MK4802J-1 6116          MK48Z02B-20 DS1220      MK3880N-4 Z80           MK3881N Z80-PIO
MM5290N-4 4116          MM5257N-3 TMS4044       MM2114N-3 2114          MM2708Q 2708
MM2716Q 2716            NMC27C64Q 2764          NMC9306N 9306           MM74C922N 74C922
D2114AL-3 2114          P2114L3 2114            C2708 2708              D2716 2716
D2732A-2 2732           D2764A-25 2764          P8255A-5 8255           D8255AC-2 8255
P8085AH 8085            C8080A 8080A            D8080AFC 8080A          P5101L-1 5101
D8748H 8748             P8039HL 8039            D446C-2 6116            D416C-3 4116
UPD446C-1 6116          μPD416C-2 4116          UPD5101LC 5101          UPD780C-1 Z80
D780C Z80               uPD8255AC-5 8255        UPD2114LC 2114          D27128D 27128
AM9128-10PC 6116        AM2716DC 2716           AM9114CPC 2114          AM27S13PC 82S131
AM27S19DC 82S123        AM27S29PC 82S147        AM26LS31PC 26LS31       AM2901BDC AM2901
HM6116P-3 6116          HM6116LP-4 6116         HM4716AP-3 4116         HM4864P-2 4164
HM472114P-3 2114        HM6514-9 6514           HM7611-5 82S129         HM1-7611-5 82S129
HM7603-5 82S123         HM7643-5 82S137         HM7649-5 82S147         HM6264LP-15 6264
HN462716G 2716          HN462732G 2732          HN482764G-3 2764        HN27C256G-20 27256
HD6802P 6802            HD46821P 6821           HD68A50P 6850           HD6809EP 6809E
HD46505SP 6845          HA17555 555             HD14001B 4001           HD7407P 7407
MB8116E 4116            MB8128-15 6116          MB8264-15 4164          MBM2716 2716
MBM27C256-25 27256      MB81256-12 41256        MB81416-12 4416         MBL8048H 8048
N82S129N 82S129         N82S123AN 82S123        S82S23F 82S23           N8T97N 74367
N8T26AN 8T26            N8T28N 8T28             N82S137N 82S137         DM74S287N 82S129
6331-1J 82S123          6301-1N 82S129          6349-1J 82S147          TBP28S42N 82S147
TBP18S030N 82S123       TBP24S10N 82S129        N82S191N 82S191         MMI6331-1J 82S123
MPS6502 6502            MPS6502A 6502           MCS6502 6502            MOS6507 6507
R6502P 6502             R6502AP 6502            R6522P 6522             R6532AP 6532
SY6502A 6502            SYP6522 6522            SYP6532 6532            SY2114L-2 2114
UM6502A 6502            G65SC02P-2 65C02        R65C02P2 65C02          MPS2316 2316
S2114A 2114             S6810P 6810             F6810P 6810             S6821P 6821
MC6800P 6800            MC6802CP 6802           MC6808P 6808            MC6809EP 6809E
MC68B09EP 6809E         MC68A09P 6809           MC68B09P 6809           EF6802P 6802
MC68A21P 6821           MC6821P 6821            MC6840P 6840            MC6850P 6850
MC68B50P 6850           MC6845P 6845            MCM6810P 6810           MCM68A10P 6810
MCM2114P20 2114         MCM2114P45 2114         MCM4116BC20 4116        MCM6665AL20 4164
MCM68764C 68764         MC68701 6801            MC68705P3S 68705P3      MCM7643 82S137
Z8400APS Z80            Z80_CPU Z80             Z80A_CPU Z80            Z80_PIO Z80-PIO
Z80_CTC Z80-CTC         Z80ACTC Z80-CTC         Z8420APS Z80-PIO        Z8430APS Z80-CTC
Z84C00 Z80              Z0840004PSC Z80         LH0080A Z80             LH0081A Z80-PIO
UA880D Z80              UB857D Z80-CTC          TMPZ84C00AP Z80         MK3882N Z80-CTC
TMM2016AP-12 6116       TMM416P-3 4116          TMM314AP 2114           TMM2732D 2732
TC5517APL-2 6116        TC5565PL-15 6264        TC5501P 5101            TC5514AP 5114
M58725P 6116            M5L2716K 2716           M5L2732K 2732           M5K4116P-3 4116
M5K4164NP-15 4164       M5M5116P-15 6116        M5L8085AP 8085          M5L8255AP-5 8255
M54523P ULN2003         MSM5128-15RS 6116       MSM3764-15 4164         MSM2128-15 6116
M27C256B-12F1 27256     M2716-1F1 2716          MSM80C85ARS 8085       KM6264BL-10 6264
HY6116AP-10 6116        HY62256ALP-10 62256     CY7C128A-35PC 6116      IDT6116SA90P 6116
CXK5816PN-12L 6116     LH5116-10 6116          KM4164B-15 4164         HYB4164-2 4164
LM311N LM311            UA741CP 741             LM741CN 741             NE555P 555
MC1455P1 555            MC1458CP1 1458          RC4558P 1458            NJM4558D 1458
UPC4558C 1458           XR555CP 555             CA741CE 741             LM339N LM339
MC1488P MC1488          SN75188N MC1488         LM339AN LM339           UA311TC LM311
NE556N 556              LM556CN 556             LM324AN LM324           KA324 LM324
UA7805UC 7805           LM7805CT 7805           MC7805CT 7805           L7805CV 7805
LM340T-5 7805           UA78M05UC 78M05         LM78L05ACZ 78L05        UA78L05AWC 78L05
LM340K-5 7805K          UA7812KC 7812K          LM7912CT 7912           LM320T-12 7912
KA7805 7805             NJM7805FA 7805          LM323K LM323            UA78H05KC 78H05
TL074CN TL084           LM1458N 1458            TL082CP TL082           MC3403P MC3403
ULN2003AN ULN2003       MC1413P ULN2003         ULQ2003A ULN2003        XR2003CP ULN2003
UPA2003C ULN2003        UDN6116A-2 UDN6116A     UDN6118A UDN6118A       ULN2803A ULN2803
SN75451BP 75451         DS75452N 75452          SN75468N SN75468        DM8880N DS8880
TIL111 TIL111           TIL113 4N33             H11A1 H11A1             MCT2E MCT2
2N2222A 2N2222          MPS2222A 2N2222         PN2222A 2N2222          MPS3904 2N3904
TIP31C TIP31            2N6059 2N6059           C106D1 C106             MCR106-6 C106
2N5061RLRA 2N5061       1N4007GP 1N4007         1N4733A 1N4733          IRF540N IRF540
XR2206CP XR2206         SN76477N SN76477        SN76489AN SN76489       AY-3-8910A AY-3-8910
`;

const NOT_CERTAIN = `
TIL311 LM311            MC4024P 4024            MC4044P 4044            SM4007 4007
MC4016P 4016            TMS4024NL 4024          TMS4046-20NL 4046       TMS4050NL 4050
TMS4051-20JL 4051       TMS4049 4049            MK4008P 4008            UDN2114 2114
UDN6264 6264            ULN2114A 2114           ULN2111A 2111           ULN2102 2102
ICL8048CP 8048          ICL8212CPA 8212         ICL8049 8049            N8251N 8251
N8255 8255              DM8212N 8212            DM8255 8255             SN2114N 2114
MPS6530 6530            MPS6532 6532            MPS6522 6522            UPD4016C 4016
AN7410 7410             LA7404 7404             TA7404 7404             AD7400 7400
XYZ4016 4016            QQ2114 2114             SN4016N 4016            LM4016 4016
9316 2316,74161         4864 4164               4716 4116               Z80SIO -
Z80_DMA -             Z80SIO/1 -            IMS4116 4116            LM2114N 2114
HA2114 2114             CA6116 6116             TIL4016 4016            MCM4049 4049
`;

const UNKNOWN = `
MC6846P XC-1234 SN74LS999N MPS6515X ICL7106CPL ER2055 UCN5815A DI-512 BF324 BC4016 2SC2114 2SA1015 2SD4027 TIP311
HM7799 6805R3 Z8681 MPSA7404 MJE7400 TIL7799 HD6303RP PIC1650 SAA5050 TMS1000NL SP0256A-AL2 TMS4500A
YM3012 HN61364P
`;

const pairs = (table: string): [typed: string, expected: string][] =>
  table
    .trim()
    .split(/\n|\s{2,}/)
    .map((cell) => cell.trim().split(" "))
    .map(([typed = "", expected = ""]) => [typed.replaceAll("_", " "), expected]);

const LIBRARY = builtinLibrary();

describe("numbers as printed", () => {
  test.each(pairs(CERTAIN))("%s is %s", (typed, id) => {
    expect(LIBRARY.device(typed)?.device.id).toBe(id);
    expect(LIBRARY.doubt(typed)).toBeUndefined();
  });

  test.each(pairs(NOT_CERTAIN))("%s is not certain to be a %s", (typed, ids) => {
    expect(LIBRARY.device(typed)).toBeUndefined();
    const doubt = LIBRARY.doubt(typed);
    expect(doubt?.typed).toBe(typed);
    const mayBe = doubt?.mayBe.flatMap(({ device }) => device?.id ?? []) ?? [];
    if (ids === "-") expect(mayBe).toEqual([]);
    else for (const id of ids.split(",")) expect(mayBe).toContain(id);
  });

  test.each(UNKNOWN.trim().split(/\s+/))("%s is nothing the library knows", (typed) => {
    expect(LIBRARY.device(typed)).toBeUndefined();
    expect(LIBRARY.doubt(typed)?.mayBe.filter(({ device }) => device) ?? []).toEqual([]);
  });

  test("there are enough of each", () => {
    expect(pairs(CERTAIN).length).toBeGreaterThanOrEqual(200);
    expect(pairs(NOT_CERTAIN).length + UNKNOWN.trim().split(/\s+/).length).toBeGreaterThanOrEqual(60);
  });
});
