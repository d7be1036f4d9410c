import { describe, expect, it } from "vitest";
import { greatest } from "./key";

describe("the greatest movement", () => {
  it("is that of the node that moves farthest, on whichever line", () => {
    expect(greatest([{ movement_m: [0, 0, 0, 0.003, -0.004, 0] }, { movement_m: [0.001, 0, 0] }])).toBeCloseTo(0.005, 12); // 3, 4, 5
  });

  it("is nought where nothing is", () => {
    expect(greatest([])).toBe(0);
  });
});
