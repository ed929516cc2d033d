import { defined } from "../../base/defined";

/** What is known of a job when its board comes in. Everything may be left out; blank texts count as left out. */
export interface NewLogFacts {
  readonly job?: string;
  /** Id of a board, or what it is called in words. */
  readonly board?: string;
  readonly revision?: string;
  readonly serial?: string;
  readonly owner?: string;
  /** ISO 8601 day; nothing here looks at a clock. */
  readonly received?: string;
  /** Ids of the board's symptoms, or the owner's own words. */
  readonly symptoms?: readonly string[];
  /** Id of a meter of the shop file. */
  readonly meter?: string;
  /** Number of the earlier job. */
  readonly comebackOf?: string;
}

/** The facts without blanks around them, without what is blank, and without a symptom said twice. */
export function tidyFacts(facts: NewLogFacts): NewLogFacts {
  const { symptoms = [], ...rest } = facts;
  const told = [...new Set(symptoms.map((symptom) => symptom.trim()).filter((symptom) => symptom !== ""))];
  const tidy: Record<string, string> = {};
  for (const [key, value] of Object.entries(rest)) {
    const text = typeof value === "string" ? value.trim() : "";
    if (text !== "") tidy[key] = text;
  }
  return defined({ ...tidy, symptoms: told.length > 0 ? told : undefined });
}
