import { load } from "./load";
import type { Loaded } from "./loaded";
import { shapeMaker } from "./shape-maker";
import type { Maker } from "./types-maker";

/** Reads a `*.maker.yaml`. */
export const loadMaker = (text: string): Loaded<Maker> => load("maker", text, shapeMaker, () => {});
