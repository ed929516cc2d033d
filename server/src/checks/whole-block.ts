import { type Judgement, judgeBlock } from "../judge";
import type { LogContext } from "../judge/context";
import type { LogBlock, Reading } from "../log/model";
import type { BlockInput, ChosenOption } from "./check";

/** What a check is given of a block. A class: dozens are made of each block, and a getter in a literal is dear. */
export class WholeBlock implements BlockInput {
  constructor(
    readonly block: LogBlock,
    readonly ctx: LogContext,
    readonly option: ChosenOption,
  ) {}

  /** Of a long table only where they are asked for. */
  get judgements(): ReadonlyMap<Reading, Judgement> {
    return judgeBlock(this.block, this.ctx);
  }
}
