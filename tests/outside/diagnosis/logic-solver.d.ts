// logic-solver 2.0 carries no types; only what the tests here use.
declare module "logic-solver" {
  type Formula = object;
  class Solver {
    require(...formulas: (Formula | string)[]): void;
    forbid(...formulas: (Formula | string)[]): void;
    solve(): Solution | null;
  }
  interface Solution {
    getTrueVars(): string[];
  }
  const logic: {
    readonly Solver: typeof Solver;
    or(operands: readonly string[]): Formula;
    and(operands: readonly string[]): Formula;
    sum(operands: readonly string[]): Formula;
    equalBits(a: Formula, b: Formula): Formula;
    constantBits(value: number): Formula;
  };
  export default logic;
}
