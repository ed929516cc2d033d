// All that is kept for a language server between two starts.
import { defined } from "../../base/defined";
import type { Host } from "../../workspace/host";
import type { Surroundings } from "../io";
import { findingsShelfFor } from "./findings-shelf";
import type { Shelved } from "./place";
import { shelfFor } from "./shelf";

/** What is remembered and what was found; each absent where there is no place for it. */
export const shelvesFor = (server: Shelved, io: Surroundings): Pick<Host, "shelf" | "findings"> =>
  defined({ shelf: shelfFor(server, io), findings: findingsShelfFor(server, io) });
