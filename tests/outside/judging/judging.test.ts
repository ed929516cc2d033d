// How often a reading's verdict is the one that a senior technician gives.
import { describe, expect, it } from "vitest";
import { agrees, isFalse, measure, type Outcome, readScenes, told } from "./measure";

async function all(file: string): Promise<Outcome[]> {
  const outcomes: Outcome[] = [];
  for (const scene of readScenes(new URL(file, import.meta.url))) outcomes.push(...(await measure(scene)));
  return outcomes;
}

describe.each([
  ["first.txt", 300],
  ["second.txt", 100],
])("the readings of %s", (file, many) => {
  it("are judged as a senior technician judges them", async () => {
    const outcomes = await all(file);
    const wrong = outcomes.filter((each) => !agrees(each));
    if (process.env.MENDLOG_JUDGING === "print")
      console.log(
        `${told(outcomes)}\n${outcomes.length - wrong.length} of ${outcomes.length} agree, ${outcomes.filter(isFalse).length} false`,
      );
    expect(outcomes.length).toBeGreaterThanOrEqual(many);
    expect(outcomes.filter(isFalse).length, told(outcomes.filter(isFalse))).toBe(0);
    expect(1 - wrong.length / outcomes.length, told(wrong)).toBeGreaterThanOrEqual(0.97);
  });
});
