// What technicians write in a cell in place of a number. Common practice, no source.

/** What a logic probe shows at a pin; "floating" where nothing drives it. */
export type LogicState = "high" | "low" | "pulsing" | "floating";

const list = (text: string): string[] => text.split(",").map((word) => word.trim());

const EMPTY: ReadonlySet<string> = new Set([
  ...list("-,–,—,−,--,---,n/a,na,n.a.,nm,n.m.,n/m,nt,n/t,?,??,tbd,todo"),
  ...list("no reading,not measured,not tested,not checked,not taken,not read,not done,skipped,untested"),
]);

const OPEN: ReadonlySet<string> = new Set([
  ...list(
    "ol,o.l,o.l.,o/l,.ol,0l,0.l,0.l.,0/l,ovl,ovld,over load,overload,over range,over-range,overrange,over",
  ),
  ...list("open,open circuit,open-circuit,o/c,oc,inf,inf.,infinite,infinity,∞"),
]);

const SHORT: ReadonlySet<string> = new Set(
  list(
    "short,shorted,short circuit,short-circuit,dead short,s/c,sc,gnd,ground,to gnd,to ground,shorted to gnd,shorted to ground,short to gnd,short to ground",
  ),
);

const STATES: ReadonlyMap<string, LogicState> = new Map([
  ...entries<LogicState>("high", "h,hi,high,stuck high,always high,steady high,held high,logic high,logic 1"),
  ...entries<LogicState>("low", "l,lo,low,stuck low,always low,steady low,held low,logic low,logic 0"),
  ...entries<LogicState>(
    "pulsing",
    "p,pulse,pulses,pulsing,pulsed,toggle,toggles,toggling,clock,clocks,clocking,clk",
  ),
  ...entries<LogicState>("pulsing", "active,activity,switching,oscillating,square wave,blinking,flashing,⎍"),
  ...entries<LogicState>(
    "floating",
    "z,hi-z,hiz,hi z,high-z,high z,high impedance,float,floats,floating,fl,flt",
  ),
  ...entries<LogicState>("floating", "tri,tri-state,tristate,three-state,3-state,undriven"),
]);

const RESULTS: ReadonlyMap<string, boolean | undefined> = new Map([
  ...entries(true, "ok,o.k.,okay,works,work,working,worked,pass,passes,passed,yes,y,✓,✔,☑,✅,√"),
  ...entries(
    true,
    "good,fine,clean,correct,match,matches,matched,responds,responding,closes,closed,lit,lights",
  ),
  ...entries(true, "normal,stable,sound,intact,clear,done,tested ok,as expected"),
  ...entries(false, "dead,fail,fails,failed,failing,failure,no,n,not ok,no good,ng,n.g.,nok,✗,✘,✕,×,❌,☒"),
  ...entries(false, "bad,stuck,stuck on,stuck off,stuck open,stuck closed,always on,always off,never,broken"),
  ...entries(false, "faulty,fault,wrong,mismatch,no match,missing,blank,dark,dim,unlit,garbled,no response"),
  ...entries(
    false,
    "brown,browned,scorched,charred,melted,discoloured,discolored,cracked,burnt,burned,corroded,leaking,leaked,lifted,dirty,damaged,error,not working",
  ),
  ...entries(
    undefined,
    "intermittent,sometimes,flaky,marginal,suspect,unsure,unclear,maybe,weak,noisy,erratic",
  ),
  ...entries(true, "cured,fixed,solved"),
  ...entries(true, "fires,fired,pulls in,pulls,stays up,stayed up,stays on,holds,played"),
  ...entries(
    false,
    "shut down,shuts down,tripped,trips,folds back,folded back,at its limit,locked on,stays in,does not fire,no pull",
  ),
  ...entries(undefined, "better,improved,same,the same,no change,unchanged,no difference,no better,worse"),
  ...entries(undefined, "partly,partial,flickers,flickering,unstable,drifts,slow,works cold,works warm"),
]);

/** What a meter's beeper says of two points: true where they are joined. */
const BEEPS: ReadonlyMap<string, boolean> = new Map([
  ...entries(
    true,
    "beep,beeps,beeped,beep ok,bleep,bleeps,buzz,buzzes,buzzed,tone,sounds,rings,rang,yes,y,ok,good,cont,contact,linked",
  ),
  ...entries(true, "connected,continuity,conducts,joined,closed,through,pass,✓,✔,☑,✅,short,shorted"),
  ...entries(
    false,
    "no beep,none,silent,silence,no tone,no buzz,no,n,not connected,not joined,no continuity,no cont,no cont.,nc,n/c,n.c.,quiet,broken,break",
  ),
  ...entries(false, "no connection,nothing,does not beep,doesn't beep,no sound,dead,fail,✗,✘,✕,×,❌,☒"),
]);

/** Words of a switch bank's state column; they are read by the bank, not as logic states. */
const SWITCH_STATES: ReadonlySet<string> = new Set(list("on,off,closed,up,down"));

function entries<T>(value: T, words: string): [string, T][] {
  return list(words).map((word) => [word, value]);
}

const fold = (text: string): string => text.toLowerCase().replace(/\s+/g, " ");

/** True for words of a cell in which nothing was noted: none, a dash, "n/a", "not measured". Without white space at the ends. */
export const isEmptyWord = (text: string): boolean => text === "" || EMPTY.has(fold(text));
/** A unit the meter keeps showing beside its overload sign ("OL MΩ") changes nothing. */
export const isOpenWord = (text: string): boolean =>
  OPEN.has(fold(text.replace(/\s*[kKmM]?(?:Ω|V|ohms?)$/, "")));
export const isShortWord = (text: string): boolean => SHORT.has(fold(text));
/** Undefined for words that are none of a beeper. */
export const beepOf = (text: string): boolean | undefined => BEEPS.get(fold(text));
export const isSwitchState = (text: string): boolean => SWITCH_STATES.has(fold(text));
export const stateOf = (text: string): LogicState | undefined => STATES.get(fold(text)) ?? stateIn(text);

/** Words that say how a state is, and make it no other one: "solid high", "low all the time", "pulses fast". */
const HOW: ReadonlySet<string> = new Set(
  list(
    "a,an,at,always,stuck,steady,held,hard,solid,static,constant,constantly,permanent,permanently,fixed,stays,stay,stands,sits,rests,idle,idles,pinned,parked,flat,firm,firmly,all,the,time,is,it,full,good,nice,clean,strong,fast,slow,slowly,quick,quickly,rapid,regular,regularly,short,narrow,brief,signal,led,light,lamp,level,line,logic,state,only,just,both,lights,leds,on,lit,going,train,bursts,of,with,clear,normal,normally,mostly,weakly,dead,sometimes,now,and,then",
  ),
);
const MOVES: ReadonlySet<string> = new Set(
  list(
    "pulse,pulses,pulsing,pulsed,toggle,toggles,toggling,clocks,clocking,active,activity,switching,switches,oscillating,oscillates,blinks,blinking,flashes,flashing,moves,moving,busy,alive,runs,running,changes,changing,strobes,strobing,bursts,ticks,ticking",
  ),
);
const STEADY =
  /^(?:flat|steady|static|dead|still|constant|a? ?(?:flat )?line)\s*(?:line)?\s*[,:]?\s*(?:at|on|,)?\s+/i;
/** "flat, 0.1 V", "steady at 3.8 V": where a trace stands that does not move; other words as they are. */
export const besideSteady = (text: string): string => text.replace(STEADY, "");

/** Neither light of the probe is lit. */
const NO_LIGHT =
  /^(?:no (?:light|lights|led|leds|lamp|level)(?: (?:lit|on|at all))?|neither(?: (?:led|light|lamp))?(?: lit)?|none lit|nothing lit|no lights? lit|both (?:leds|lights) (?:off|dark))$/;
const LONGEST_STATE = 60;

/** Words around one state: undefined where two different ones stand there, or anything that is no word for a state. */
function stateIn(text: string): LogicState | undefined {
  if (text.length > LONGEST_STATE) return undefined;
  const folded = fold(text).replace(/[.!]+$/, "");
  if (NO_LIGHT.test(folded)) return "floating";
  const whole = byHow(folded);
  if (whole) return whole;
  // "pulses, 0 to 3.8 V", "low (0.1 V)": a remark that names no other state.
  const [, head = "", tail = ""] = /^([^,;:(]+?)\s*(?:[,;:(]|\s-\s)\s*(.*)$/.exec(folded) ?? [];
  const state = head === "" ? undefined : (STATES.get(head) ?? byHow(head));
  const others = new Set(tail.split(/[^a-z0-9-]+/).flatMap((word) => wordState(word) ?? []));
  others.delete(state ?? "floating");
  return others.size === 0 ? state : undefined;
}

const wordState = (word: string): LogicState | undefined =>
  MOVES.has(word) ? "pulsing" : word.length > 1 ? STATES.get(word) : undefined;

function byHow(folded: string): LogicState | undefined {
  const words = folded.split(/[\s-]+/);
  if (words.length < 2 && !MOVES.has(folded)) return undefined;
  // "Short low pulses" move, whichever way they go.
  const moves = words.some((word) => MOVES.has(word));
  let found: LogicState | undefined = moves ? "pulsing" : undefined;
  for (const word of words) {
    const state = MOVES.has(word) ? "pulsing" : STATES.get(word);
    if (state === undefined && !HOW.has(word)) return undefined;
    if (state !== undefined && found !== undefined && state !== found && !moves) return undefined;
    found ??= state;
  }
  return found;
}
export const isResultWord = (text: string): boolean => RESULTS.has(fold(text));
/** True works, false does not, undefined undecided; ask `isResultWord` first. */
export const resultOf = (text: string): boolean | undefined => RESULTS.get(fold(text));

const STATE_WORDS = [...STATES.keys()];
const RESULT_WORDS = [...RESULTS.keys()];

/** The known word one slip away ("plusing" to "pulsing"); short words are too close together to guess. */
export function nearestWord(text: string, of: "state" | "result"): string | undefined {
  const typed = fold(text);
  if (typed.length < 4 || typed.length > 24) return undefined;
  return (of === "state" ? STATE_WORDS : RESULT_WORDS).find(
    (word) => word.length >= 4 && isOneSlipAway(typed, word),
  );
}

/** One letter put in, left out, replaced, or two neighbours swapped. */
export function isOneSlipAway(a: string, b: string): boolean {
  if (a === b || Math.abs(a.length - b.length) > 1) return false;
  let i = 0;
  while (i < a.length && i < b.length && a[i] === b[i]) i += 1;
  const restA = a.slice(i);
  const restB = b.slice(i);
  return (
    restA.slice(1) === restB.slice(1) ||
    restA.slice(1) === restB ||
    restA === restB.slice(1) ||
    (restA.slice(2) === restB.slice(2) && restA[0] === restB[1] && restA[1] === restB[0])
  );
}
