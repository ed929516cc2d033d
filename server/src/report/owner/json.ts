import { type Json, json } from "../../text/json";
import type { OwnerReport } from "./model";

/** The report's data as it is, for other programs; `format` is raised when a field changes its meaning or goes. */
export const ownerJson = (report: OwnerReport): Json => json(report);
