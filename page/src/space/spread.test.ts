// Where labels stand in the turning view.     (space/spread.test.ts)
import { describe, expect, it } from "vitest";
import type { Box, Spot, Wanted } from "./spread";
import { crosses, leaderOf, spread } from "./spread";

const room = { width: 400, height: 300 };
const wanted = (x: number, y: number, before: Box | null = null): Wanted => ({ width: 80, height: 20, at: { x, y }, before });
const pipe: Spot[] = Array.from({ length: 41 }, (_, k) => ({ x: 10 * k, y: 150 })); // level, through the middle
const over = (a: Box, b: Box) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
const on = (box: Box, { x, y }: Spot) => x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height;

describe("where labels stand", () => {
  it("is right over the place where nothing is in the way", () => {
    const [box] = spread([wanted(200, 150)], room, pipe);
    expect(box).toEqual({ x: 160, y: 150 - 12 - 20, width: 80, height: 20 }); // 12 pixels over it, 20 high
  });

  it("is off what is drawn and off each other, in a crowd too", () => {
    const crowd = [190, 200, 210, 220, 230].map((x) => wanted(x, 150));
    const boxes = spread(crowd, room, pipe).flatMap((box) => (box === null ? [] : [box]));
    expect(boxes).toHaveLength(5);
    boxes.forEach((box, k) => {
      expect(pipe.filter((spot) => on(box, spot))).toEqual([]);
      expect(boxes.filter((other, j) => j !== k && over(box, other))).toEqual([]);
    });
  });

  it("leaves the leaders of others to be seen where there is room for that", () => {
    const crowd = [150, 180, 230].map((x) => wanted(x, 150));
    const boxes = spread(crowd, room, pipe).flatMap((box) => (box === null ? [] : [box]));
    expect(boxes).toHaveLength(3);
    boxes.forEach((box, k) => {
      expect(pipe.filter((spot) => on(box, spot))).toEqual([]);
      expect(boxes.filter((other, j) => j !== k && over(box, other))).toEqual([]);
      expect(boxes.filter((other, j) => j !== k && crosses(leaderOf(box, crowd[k]!.at)!, other))).toEqual([]);
    });
  });

  it("is beside a riser", () => {
    const riser: Spot[] = Array.from({ length: 31 }, (_, k) => ({ x: 200, y: 10 * k }));
    const box = spread([wanted(200, 150)], room, riser)[0]!;
    expect(box.x > 200 || box.x + box.width < 200).toBe(true);
    expect(Math.abs(box.y + 10 - 150)).toBeLessThan(35); // close by
  });

  it("is within the picture, and nowhere where there is no room", () => {
    expect(spread([wanted(5, 150)], room, [])[0]!.x).toBe(2);
    expect(spread([wanted(200, 5)], room, [])[0]!.y).toBeGreaterThan(5);
    expect(spread([wanted(20, 12), wanted(20, 12)], { width: 90, height: 40 }, [])).toContain(null);
  });

  it("stays where it was while that is not much farther", () => {
    const before = { x: 160, y: 162, width: 80, height: 20 }; // under the place
    expect(spread([wanted(200, 150, before)], room, pipe)[0]!.y).toBe(162);
    const far = { x: 160, y: 162 + 3 * 23, width: 80, height: 20 };
    expect(spread([wanted(200, 150, far)], room, pipe)[0]!.y).toBe(118);
  });

  it("covers what is drawn rather than being left out", () => {
    const everywhere = Array.from({ length: 1200 }, (_, k) => ({ x: 10 * (k % 40), y: 10 * Math.floor(k / 40) }));
    expect(spread([wanted(200, 150)], room, everywhere)[0]).not.toBeNull();
  });
});

describe("a line and a box", () => {
  const box = { x: 10, y: 10, width: 20, height: 10 };
  it("cross, or do not", () => {
    expect(crosses([{ x: 0, y: 15 }, { x: 40, y: 15 }], box)).toBe(true);
    expect(crosses([{ x: 0, y: 0 }, { x: 40, y: 30 }], box)).toBe(true);
    expect(crosses([{ x: 0, y: 5 }, { x: 40, y: 5 }], box)).toBe(false);
    expect(crosses([{ x: 0, y: 15 }, { x: 9, y: 15 }], box)).toBe(false);
    expect(crosses([{ x: 20, y: 0 }, { x: 20, y: 10 }], box)).toBe(false); // it only touches
  });
});
