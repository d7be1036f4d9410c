import { expect, it } from "vitest";
import type { Place } from "../interface";
import { sizes, tellable } from "./tellable";

function spot(id: string, kind: string, what: Place["what"], x: number) {
  const place = { id, name: id, line: "L", what, kind, station_m: 0, from_m: 0, to_m: 0, placed_by: "by hand", stays: "" };
  return { place, x, y: 0 };
}

const SPOTS = [
  spot("anchor", "main anchor", "hold", 0),
  spot("joint", "single", "takeup", 20),
  spot("far", "single", "takeup", 90),
  spot("unstated", "slide guide", "hold", 300),
];
const USES = new Map([
  ["anchor", 0.1],
  ["joint", 0.9],
  ["far", 0.2],
  ["unstated", null],
]);

it("writes no use over another one, anchors before joints, and none where there is none", () => {
  expect([...tellable(SPOTS, USES, "")].sort()).toEqual(["anchor", "far"]);
});

it("writes the use of what is chosen, whatever is near", () => {
  expect([...tellable(SPOTS, USES, "joint")].sort()).toEqual(["far", "joint"]);
});

it("lets no handle cover the middle of another one", () => {
  expect([...sizes(SPOTS).values()]).toEqual([20, 20, 24, 24]); // 20 pixels apart; the others have all the room
  expect([...sizes([SPOTS[0]!, { ...SPOTS[1]!, x: 2 }]).values()]).toEqual([9, 9]);
});
