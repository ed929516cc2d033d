// The one runner of long work: it gives turns, hears of cancellations between two of them, and stops there.
import { afterEach, describe, expect, test, vi } from "vitest";
import {
  anyOf,
  Cancelled,
  cancelledWhen,
  completes,
  NEVER_CANCELLED,
  stopIfCancelled,
} from "../../server/src/base/cancellation";
import { finish, type Steps } from "../../server/src/base/steps";
import { eachInTurn, inTurns, nextTurn, turns } from "../../server/src/base/turns";

/** Every step takes longer than a stint. */
function slowClock(): void {
  let now = 0;
  vi.spyOn(performance, "now").mockImplementation(() => {
    now += 10;
    return now;
  });
}
afterEach(() => {
  vi.restoreAllMocks();
});

function* counting(to: number, seen: number[]): Steps<string> {
  for (let i = 0; i < to; i += 1) {
    seen.push(i);
    yield;
  }
  return "all";
}

describe("steps", () => {
  test("give the same in one go and in turns", async () => {
    slowClock();
    expect(finish(counting(5, []))).toBe("all");
    expect(await inTurns(counting(5, []), NEVER_CANCELLED)).toBe("all");
  });

  test("let others in where they take long, and do not where they are short", async () => {
    const order: string[] = [];
    const others = () => {
      order.push("others");
      if (order.length < 20) setImmediate(others);
    };
    slowClock();
    setImmediate(others);
    const seen: number[] = [];
    await inTurns(counting(3, seen), NEVER_CANCELLED);
    expect(order.length).toBeGreaterThanOrEqual(2);
    vi.restoreAllMocks();
    vi.spyOn(performance, "now").mockReturnValue(0);
    const before = order.length;
    await inTurns(counting(1000, seen), NEVER_CANCELLED);
    expect(order.length).toBe(before);
  });

  test("stop behind the turn in which nobody waits for them any more", async () => {
    slowClock();
    const seen: number[] = [];
    const token = cancelledWhen(() => seen.length >= 3);
    await expect(inTurns(counting(10, seen), token)).rejects.toBeInstanceOf(Cancelled);
    expect(seen).toEqual([0, 1, 2]);
  });
});

describe("what is given one after another", () => {
  async function* files(closed: string[]) {
    try {
      for (const each of ["a", undefined, "b", "c"]) yield each;
    } finally {
      closed.push("closed");
    }
  }

  test("comes without what lies in between", async () => {
    const found: string[] = [];
    const closed: string[] = [];
    for await (const each of eachInTurn(files(closed), NEVER_CANCELLED)) found.push(each);
    expect(found).toEqual(["a", "b", "c"]);
    expect(closed).toEqual(["closed"]);
  });

  test("stops without a turn too, as files may have been waited for, and is closed", async () => {
    vi.spyOn(performance, "now").mockReturnValue(0);
    const found: string[] = [];
    const closed: string[] = [];
    const work = async () => {
      const token = cancelledWhen(() => found.length >= 2);
      for await (const each of eachInTurn(files(closed), token)) found.push(each);
    };
    expect(await completes(work())).toBe(false);
    expect(found).toEqual(["a", "b"]);
    expect(closed).toEqual(["closed"]);
  });
});

test("a background pass may wait longer than for one turn", async () => {
  slowClock();
  const waited: boolean[] = [];
  const turn = turns(NEVER_CANCELLED, async (token) => {
    await nextTurn(token);
    waited.push(true);
  });
  expect(await turn()).toBe(true);
  expect(waited).toEqual([true]);
  vi.restoreAllMocks();
  vi.spyOn(performance, "now").mockReturnValue(0);
  expect(await turns(NEVER_CANCELLED)()).toBe(false);
});

describe("a token", () => {
  test("of several is cancelled with any of them, and looked at anew each time", () => {
    let edited = false;
    const over = anyOf(
      NEVER_CANCELLED,
      cancelledWhen(() => edited),
    );
    expect(() => stopIfCancelled(over)).not.toThrow();
    edited = true;
    expect(() => stopIfCancelled(over)).toThrow(Cancelled);
  });

  test("that is cancelled ends a turn", async () => {
    await expect(nextTurn(cancelledWhen(() => true))).rejects.toBeInstanceOf(Cancelled);
    await expect(nextTurn()).resolves.toBeUndefined();
  });

  test("hides no other failure", async () => {
    await expect(completes(Promise.reject(new Error("broken")))).rejects.toThrow("broken");
    expect(await completes(Promise.resolve())).toBe(true);
  });
});
