// All faults through the simulator, put together where no reading tells them apart, and written as logs.
import type { Board } from "./board";
import { die, type Fault, INTACT, type Truth } from "./fault";
import {
  backupFaults,
  driverFaults,
  railFaults,
  resetFaults,
  soundFaults,
  supplyFaults,
} from "./faults-analogue";
import { LOGIC } from "./faults-logic";
import { alike, type BenchMeter, logOf, normals, type Scene } from "./log";
import { carryOut, type Recipe } from "./plan";
import { backupRecipe, logicRecipe, railsRecipe, resetRecipe, soundRecipe } from "./recipe-controller";
import { driverRecipe, supplyRecipe } from "./recipe-driver";

export interface Set {
  readonly name: string;
  /** Whether its readings are node voltages of ngspice alone, or the evaluator's states with them. */
  readonly from: "ngspice" | "evaluator";
  readonly board: Board;
  readonly recipe: Recipe;
  readonly faults: readonly Fault[];
}

export interface Specimen {
  readonly set: Set;
  /** Those that read alike: the first is the one that was injected. */
  readonly faults: readonly Fault[];
  readonly truth: readonly Truth[];
  readonly scene: Scene;
  readonly log: string;
}

export interface Injected {
  readonly intact: readonly Specimen[];
  readonly specimens: readonly Specimen[];
  /** Faults that leave every reading as it was. */
  readonly unseen: readonly { readonly set: Set; readonly fault: Fault }[];
}

export function setsOf(controller: Board, driver: Board): Set[] {
  const analogue = (name: string, board: Board, recipe: Recipe, faults: readonly Fault[]): Set => ({
    name,
    from: "ngspice",
    board,
    recipe,
    faults,
  });
  return [
    analogue("supplies, rails only", driver, supplyRecipe(false), supplyFaults()),
    analogue("supplies, parts too", driver, supplyRecipe(true), supplyFaults()),
    analogue("drivers", driver, driverRecipe, driverFaults(driver)),
    analogue("shorts", controller, railsRecipe, railFaults()),
    analogue("reset", controller, resetRecipe, resetFaults(controller)),
    analogue("backup", controller, backupRecipe, backupFaults(controller)),
    analogue("sound", controller, soundRecipe, soundFaults(controller)),
    ...Object.entries(LOGIC).map(
      ([name, faults]): Set => ({
        name,
        from: "evaluator",
        board: controller,
        recipe: logicRecipe(name),
        faults: faults(controller),
      }),
    ),
  ];
}

/** Chips that hold one net the same way make one circuit, which is simulated once. */
const circuitOf = ({ name, board }: Set, fault: Fault): string => {
  const [edit] = fault.edits;
  return edit?.kind === "burnt" && fault.edits.length === 1
    ? `${name} burnt ${die(board, fault, edit.pin)} ${edit.level}`
    : `${name} ${fault.id}`;
};

/** Takes each fault of these sets to its log. */
export function inject(sets: readonly Set[], meter: BenchMeter): Injected {
  const all = sets.flatMap((set) => [INTACT, ...set.faults].map((fault) => ({ set, fault })));
  const different = new Map(all.map((one) => [circuitOf(one.set, one.fault), one]));
  const measured = carryOut([...different.values()].map(({ set, fault }) => set.recipe(set.board, fault)));
  const byCircuit = new Map([...different.keys()].map((key, i) => [key, measured[i]!]));
  const scenes = all.map(({ set, fault }) => byCircuit.get(circuitOf(set, fault))!);
  const intact: Specimen[] = [];
  const specimens: Specimen[] = [];
  const unseen: { set: Set; fault: Fault }[] = [];
  const specimen = (set: Set, faults: readonly Fault[], scene: Scene): Specimen => {
    const job = `${set.name}: ${faults[0]!.id}`.replace(/[^A-Za-z0-9]+/g, "-");
    return {
      set,
      faults,
      truth: faults.flatMap(({ truth }) => truth),
      scene,
      log: logOf(job, set.board.id, scene, meter, normals(job)),
    };
  };
  for (const set of sets) {
    const of = all.flatMap((one, i) => (one.set === set ? [{ fault: one.fault, scene: scenes[i]! }] : []));
    const whole = of[0]!.scene;
    intact.push(specimen(set, [INTACT], whole));
    const groups: { faults: Fault[]; scene: Scene }[] = [];
    for (const { fault, scene } of of.slice(1)) {
      if (alike(meter, scene, whole)) {
        unseen.push({ set, fault });
        continue;
      }
      const same = groups.find((group) => alike(meter, group.scene, scene));
      if (same) same.faults.push(fault);
      else groups.push({ faults: [fault], scene });
    }
    for (const { faults, scene } of groups) specimens.push(specimen(set, faults, scene));
  }
  return { intact, specimens, unseen };
}
