// What all of a shop's jobs add up to, as data and as a page. Both say the same figures.

import type { Html } from "../../text/html";
import { type Json, json } from "../../text/json";
import { statsHtml } from "./html";
import type { StatsSource } from "./source";

export type { StatsSource } from "./source";

export type StatsFormat = "html" | "json";

/** The figures over all jobs, as a page or as JSON. */
export const writeStats = (source: StatsSource, format: StatsFormat): Html | Json =>
  format === "html" ? statsHtml(source) : statsJson(source);

/** `format` is raised when a field changes its meaning or goes. */
const statsJson = ({ shop, numbers }: StatsSource): Json =>
  json({ format: 1, shop: shop ?? null, ...numbers });
