// Every figure of how strong a kind of evidence is, in one place with its reason. All of them are common practice, no
// source: they were set on one set of logs and held against others, and they order suspects rather than measure them.

/** How often what was found is a slip, or has an innocent cause. */
export interface Strength {
  readonly mistake: number;
  readonly why: string;
}

/** How strong each kind of evidence is, by its id; the larger `mistake`, the weaker. */
export const STRENGTH = {
  "clock-dead": { mistake: 0.004, why: "a counter or a probe on a running clock does not show nothing" },
  "clock-off": {
    mistake: 0.002,
    why: "a counter does not miscount a steady clock; the meter may count its edges twice",
  },
  "rate-off": {
    mistake: 0.02,
    why: "a counter does not miscount a steady rate; the note beside it may mean another",
  },
  "reset-held": {
    mistake: 0.006,
    why: "a steady level on a line that has one right level is hard to misread",
  },
  level: { mistake: 0.03, why: "a level outside the board's own window; the program may have stopped there" },
  "level-between": { mistake: 0.15, why: "no level at all may be a line that moves, seen by a meter" },
  "open-input": {
    mistake: 0.02,
    why: "what an open TTL input finds by itself; two outputs against each other, or a line that moves, may come there",
  },
  floating: { mistake: 0.003, why: "a probe that does not touch shows the same" },
  still: { mistake: 0.12, why: "an output that nobody asks for may be still" },
  "section-still": {
    mistake: 0.02,
    why: "it is clocked or triggered and not held back, and does nothing; the program may hold its data",
  },
  "held-by": { mistake: 0.008, why: "a line that is free without a chip and held with it is held by it" },
  "reset-delay": { mistake: 0.02, why: "a time read off a trace, against a resistor and a capacitor" },
  "reset-not-emptied": { mistake: 0.01, why: "two delays of one reset, right from cold and short after it" },
  "rails-low-alike": {
    mistake: 0.004,
    why: "several supplies are not low by one share for a reason of each",
  },
  "chip-silent": {
    mistake: 0.01,
    why: "many outputs are not still by chance while their inputs move; the program may not ask for them",
  },
  "still-beside": { mistake: 0.01, why: "its sister was asked for in the same way and answered" },
  "memory-bits": { mistake: 0.004, why: "the same bit at several addresses is no slip of one row" },
  "memory-bit-once": { mistake: 0.08, why: "one row may be a slip or a disturbance" },
  "memory-bank": { mistake: 0.004, why: "chips of one bank do not fail all together by chance" },
  "memory-chip": { mistake: 0.02, why: "a test program that names a chip read it back many times" },
  "address-group": { mistake: 0.01, why: "every place that fails holds what was written to its partner" },
  "decoder-bit": {
    mistake: 0.01,
    why: "the lines that fail are those of one bit of their number, and no others",
  },
  "address-line": { mistake: 0.02, why: "several places that are one place are no chance" },
  "rom-sum": {
    mistake: 0.03,
    why: "a sum of a whole image is wrong by one bit; a version nobody listed is right all the same",
  },
  "failed-alone": { mistake: 0.004, why: "only the chip was on the tester" },
  "swap-better": {
    mistake: 0.01,
    why: "what works with another part in the place was that part, or its contacts",
  },
  "rail-wrong": { mistake: 0.006, why: "a rail is read on a thick track with a steady figure" },
  "rails-all": { mistake: 0.01, why: "rails with little in common but what they all come from" },
  "backup-lost": { mistake: 0.02, why: "it was up with the power on, and is gone soon after" },
  "lines-afloat": { mistake: 0.003, why: "several lines do not hang at one voltage of no level by chance" },
  "short-nearest": {
    mistake: 0.002,
    why: "several places of one net are not next to ground by a slip of each",
  },
  "rail-short": { mistake: 0.006, why: "next to no ohms are next to no ohms" },
  ripple: { mistake: 0.02, why: "a long ground lead adds to what is seen" },
  "ripple-mains": { mistake: 0.02, why: "half of the peaks are missing, which no lead makes" },
  "winding-half": { mistake: 0.002, why: "two rails of one winding lost half of their peaks at once" },
  "net-open": {
    mistake: 0.003,
    why: "one end of a net reads what the other cannot; the probe may not have touched",
  },
  "volts-apart": {
    mistake: 0.003,
    why: "two pins of one net volts apart; the probe may not have touched at one of them",
  },
  "moves-apart": {
    mistake: 0.012,
    why: "in one table one end of a net moves and another does not; they may have been probed at different times",
  },
  "continuity-open": { mistake: 0.003, why: "no beep twice is an open; once it may be flux on the probe" },
  "continuity-short": { mistake: 0.003, why: "a beep between two nets needs a path" },
  "matrix-line": { mistake: 0.015, why: "several crossings on one line agree" },
  "matrix-silent": { mistake: 0.15, why: "a test that was not set up right shows nothing either" },
  "lines-joined": { mistake: 0.01, why: "two lines that always answer together are joined" },
  "wiring-apart": {
    mistake: 0.01,
    why: "whole lines that were themselves without the machine are not with it",
  },
  "lines-alike": { mistake: 0.03, why: "two outputs that always come together have something in common" },
  "levels-joined": {
    mistake: 0.05,
    why: "two outputs at one voltage between their levels pull against each other; both may also be off",
  },
  "line-stuck": { mistake: 0.03, why: "a line that answers with nothing closed is held" },
  "crossing-stuck": { mistake: 0.025, why: "a switch may rest closed" },
  "crossing-dead": { mistake: 0.025, why: "its row and its column answer elsewhere" },
  phantom: { mistake: 0.02, why: "a rectangle answers where three corners are closed" },
  segment: { mistake: 0.01, why: "the same segment at every digit is easily seen" },
  "line-partway": {
    mistake: 0.0002,
    why: "the same bar dark at several digits side by side, and lit at the others, is no slip and no tube",
  },
  "bar-dark": { mistake: 0.002, why: "one bar that stays dark in one digit is seen at a glance" },
  digit: { mistake: 0.01, why: "a dark digit is easily seen" },
  "display-dark": { mistake: 0.02, why: "so is a dark display, for any cause" },
  "coil-diode": { mistake: 0.05, why: "an open diode reads as leads the wrong way round do" },
  "coil-line-short": { mistake: 0.003, why: "next to no ohms along a line that its neighbours do not have" },
  "output-wrong": {
    mistake: 0.04,
    why: "an output that was fired and did not do its work; or its load did not",
  },
  contradiction: {
    mistake: 0.02,
    why: "outputs that no inputs allow; read one after the other they may not belong together",
  },
  "processor-still": { mistake: 0.02, why: "a fed, clocked and released processor moves its lines" },
  undriven: {
    mistake: 0.006,
    why: "what passes a supply's current passes none while its base is not driven",
  },
  "rail-loose": {
    mistake: 0.05,
    why: "more ohms to ground than the resistors on a rail leave; a meter that still charges it, or its leads reversed, reads more as well",
  },
  pulled: { mistake: 0.01, why: "a node that only a resistor decides stands where the resistor puts it" },
  "pulled-all-along": { mistake: 0.002, why: "the same at several places is no slip of one" },
  divided: { mistake: 0.002, why: "what resistors make of two voltages is arithmetic" },
  "reference-off": { mistake: 0.003, why: "what carries current has the voltage that it is made for" },
  stage: { mistake: 0.006, why: "voltages around one part that cannot go together while it is sound" },
  setting: { mistake: 0.01, why: "a switch that the program reads otherwise than it stands" },
  "test-code": { mistake: 0.03, why: "a code is read off a display, and points to what failed first" },
  "heat-reacts": { mistake: 0.06, why: "heat and cold spread to the neighbours" },
  "force-reacts": { mistake: 0.1, why: "a board bends as a whole" },
  hot: { mistake: 0.1, why: "some parts run hot and are sound" },
} as const satisfies Readonly<Record<string, Strength>>;

/** A kind of evidence that is more than one reading of a pin. */
export type SignId = keyof typeof STRENGTH;

/** What speaks against a part, as what is left of its odds. */
export const AGAINST = {
  "memory-pass": { left: 0.12, why: "it was written and read in its place; cold and slow, perhaps" },
  "rom-right": { left: 0.05, why: "every byte came out right" },
  "changed-before": {
    left: 0.25,
    why: "somebody put another one in before the board was sent, and it fails all the same",
  },
  "swap-same": { left: 0.05, why: "another part in the place changed nothing" },
  "said-good": { left: 0.15, why: "found good by itself, in words and without a figure" },
  "measured-itself": {
    left: 0.15,
    why: "about its own value by itself; it may leak under voltage, or hang off",
  },
  "said-measured": { left: 0.06, why: "a figure of the part by itself, which is about its own" },
  "chip-test-pass": { left: 0.3, why: "a tester is slow, cold and without load" },
  "rail-calm": { left: 0.12, why: "little ripple under load is what a sound reservoir leaves" },
  "rail-right": { left: 0.2, why: "what makes a rail that reads right under load does its work" },
  beeps: { left: 0.03, why: "next to no ohms through it" },
  biased: { left: 0.4, why: "an inverter that holds itself at its threshold amplifies" },
  "line-answers": { left: 0.5, why: "a line that answers has been through its parts" },
} as const satisfies Readonly<Record<string, { readonly left: number; readonly why: string }>>;

export type AgainstId = keyof typeof AGAINST;

/** What a node wrongly stands at. */
export type WrongState = "low" | "high" | "steady" | "floating" | "between";

type ByState = Readonly<Record<WrongState, number>>;

const states = (low: number, high: number, steady: number, floating: number, between: number): ByState => ({
  low,
  high,
  steady,
  floating,
  between,
});

/** That a fault of what stands on a node, or before it, brings the node there. */
export const EFFECT = {
  /** Its driver. */
  driver: states(0.3, 0.3, 0.4, 0.4, 0.4),
  /** An open joint or contact at the driver's pin; an open TTL input takes itself for high. */
  driverJoint: states(0.03, 0.35, 0.4, 0.7, 0.25),
  /** The driver's ground: its outputs rise. Its supply: they fall. */
  groundJoint: states(0.01, 0.5, 0.3, 0.25, 0.5),
  supplyJoint: states(0.4, 0.02, 0.3, 0.25, 0.2),
  /** Another input on the node that pulls it. */
  input: states(0.05, 0.02, 0.05, 0.005, 0.05),
  /** The joint or contact at the pin that was read. */
  ownJoint: states(0.02, 0.15, 0.3, 0.8, 0.2),
  /** The same at an input that what was read depends on, and that was not read itself. */
  needJoint: states(0.02, 0.1, 0.15, 0.3, 0.1),
  track: states(0.08, 0.06, 0.3, 0.6, 0.15),
  /** The resistor that pulls the node where it should stand. */
  pullOpen: states(0.5, 0.4, 0.1, 0.6, 0.4),
  pullOther: states(0.01, 0.01, 0.02, 0.01, 0.05),
  seriesOpen: states(0.3, 0.25, 0.5, 0.6, 0.2),
  capacitor: states(0.3, 0.01, 0.1, 0.005, 0.1),
  electrolytic: states(0.45, 0.01, 0.1, 0.02, 0.15),
  /** A junction that conducts both ways, or none. */
  junctionShort: states(0.35, 0.35, 0.3, 0.02, 0.15),
  junctionOpen: states(0.4, 0.4, 0.4, 0.4, 0.1),
  crystal: states(0.05, 0.05, 0.7, 0.02, 0.05),
  /** What comes from off the board through a header. */
  header: states(0.15, 0.12, 0.25, 0.3, 0.1),
  /** What sets the time of a timer or one-shot, at its own timing pins. */
  timingCapacitor: states(0.25, 0.1, 0.2, 0.05, 0.15),
  timingResistor: states(0.2, 0.05, 0.25, 0.1, 0.15),
  contact: states(0.3, 0.05, 0.1, 0.1, 0.05),
} as const satisfies Readonly<Record<string, ByState>>;

/** What is left of a track, where the leg of its own driver was read. */
export const AT_DRIVER = 0.4;
/** What is left of an effect a stage further up. */
export const PER_STAGE = 0.9;
/** Through a chip whose inside nobody describes. */
export const THROUGH_UNKNOWN = 0.4;
/** What is left of a part whose input was read, and stands where it makes the part do what it does. */
export const PASSED_ON = 0.1;
/** A node that was read, and stands where this cause would not bring it. */
export const READ_OTHERWISE = 0.04;
/** What is left of a short as the cause of a low node that read right with the power off. */
export const UNSHORTED = 0.15;
/** Below this a cause is not worth naming. */
export const LEAST_EFFECT = 0.02;
/** Stages a cause is followed up, and nodes at most. */
export const MOST_STAGES = 12;
export const MOST_NODES = 60;
