// All definitions; each file adds its own to the one map as it is read.
import "./definitions-gates";
import "./definitions-held";

export { DEFINITIONS } from "./definitions";
