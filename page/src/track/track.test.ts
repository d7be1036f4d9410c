import { describe, expect, it } from "vitest";
import { stepIn } from "../looks";
import { byState, clusters, kindsOf } from "./events";
import { limits } from "./hand";
import { curve, rooms, shares, stepAt } from "./layout";
import { following, stateBefore } from "./playing";
import { POSITIONS, positionOf, timesAt } from "./scale";

describe("names on the track", () => {
  for (const [count, width] of [
    [16, 1370],
    [16, 1200],
    [16, 640],
    [6, 1200],
    [40, 1200],
    [2, 600],
  ] as const)
    it(`have room, and are never over each other: ${count} on ${width} pixels`, () => {
      const placed = rooms(count, width);
      expect(placed).toHaveLength(count);
      for (const a of placed)
        for (const b of placed)
          if (a !== b && a.row === b.row) expect(a.left + a.width <= b.left || b.left + b.width <= a.left).toBe(true);
      for (const one of placed) expect(one.width).toBeGreaterThanOrEqual(66);
      expect(placed[0]!.left).toBeGreaterThanOrEqual(-46); // so much room the page leaves at either end
      expect(placed.at(-1)!.left + placed.at(-1)!.width).toBeLessThanOrEqual(width + 46);
    });
});

describe("where steps lie", () => {
  const steps = [true, false, false, true, true].map((arrived, step) => ({ step, arrived }));
  it("states stand equally far apart, steps evenly between them", () => {
    const at = shares(steps); // three states: 0, 1/2 and 1; two steps on the way to the second
    [0, 1 / 6, 1 / 3, 1 / 2, 1].forEach((share, i) => expect(at[i]).toBeCloseTo(share, 12)); // rounding of doubles
  });
  it("and are found again", () => {
    const at = shares(steps);
    for (const { step } of steps) expect(stepAt(at, at[step]!)).toBe(step);
    expect(stepAt(at, 0.8)).toBe(4);
  });
});

describe("the walk", () => {
  const steps = [0, 1, 2, 3, 4].map((step) => ({
    step,
    arrived: step % 2 === 0,
    state: ["installed", "hot", "hot", "cold", "cold"][step]!,
    temperature_c: [20, 90, 180, 60, 5][step]!,
    pressure_bar: 0,
  }));
  const walk = { revision: 1, scenario: "no friction" as const, trouble: "", steps, events: [] };
  it("goes by steps or by states", () => {
    expect(following(steps, 0, false)).toBe(1);
    expect(following(steps, 0, true)).toBe(2);
    expect(following(steps, 4, false)).toBeNull();
    expect(stateBefore(steps, 3)).toBe(2);
    expect(stateBefore(steps, 0)).toBeNull();
  });
  it("begins where it is hottest, and a new walk keeps the step, or else the state", () => {
    expect(stepIn(walk, null, "")).toBe(2);
    expect(stepIn(walk, 1, "hot")).toBe(1);
    expect(stepIn(walk, 1, "cold")).toBe(4);
    expect(stepIn(walk, 9, "gone")).toBe(2);
  });
  it("puts events that are drawn too near together", () => {
    const event = (step: number) => ({ step, id: "", what: "", words: String(step) });
    const found = clusters([event(50), event(1), event(2)], Array.from({ length: 101 }, (_, i) => i / 100), 500);
    expect(found.map((one) => one.events.map((each) => each.words))).toEqual([["1", "2"], ["50"]]);
  });
  it("draws a quantity with nought in it, highest at the top", () => {
    expect(curve([0, 10, 5], [0, 0.5, 1], 100, 20)).toBe("0.0,20.0 50.0,0.0 100.0,10.0");
    expect(curve([-1, 1], [0, 1], 100, 20)).toBe("0.0,20.0 100.0,0.0");
  });
});

describe("the sliders", () => {
  it("reach a fifth beyond the highest state, and down to vacuum where there is one", () => {
    expect(limits([0, 10, 18], 0, 0.1)).toEqual({ low: 0, high: 22 }); // 18 * 1.2 = 21.6
    expect(limits([-1.013, 10], 0, 0.1)).toEqual({ low: -1, high: 12 }); // no pressure is below full vacuum
  });
  it("run over decades: 1 and 500 at the ends, the geometric mean in the middle", () => {
    expect(timesAt(0)).toBe(1);
    expect(timesAt(POSITIONS)).toBe(500);
    expect(timesAt(POSITIONS / 2)).toBe(22); // sqrt(500) = 22.36, two figures
    expect(positionOf(50)).toBe(629); // ln 50 / ln 500 = 3.912 / 6.2146 = 0.6295, times 1000, rounded
  });
});

describe("the list of what happens on the way", () => {
  const event = (step: number, what: string) => ({ step, id: "a/b", what, words: `${what} at ${step}` });
  const all = [event(1, "slips"), event(2, "slips"), event(2, "touches"), event(5, "slips")];
  const state = (one: { step: number }) => (one.step < 3 ? "test" : "operating");

  it("is by state, in order, and of one kind where that is asked", () => {
    expect(byState(all, state, "").map(([name, those]) => [name, those.length])).toEqual([["test", 3], ["operating", 1]]);
    expect(byState(all, state, "touches")).toEqual([["test", [event(2, "touches")]]]);
  });

  it("has its kinds with how often each is there, most frequent first", () => {
    expect(kindsOf([event(0, "touches"), ...all.filter((one) => one.what === "slips")])).toEqual([["slips", 3], ["touches", 1]]);
  });
});
