import { describe, expect, it } from "vitest";
import type { Place } from "../interface";
import { listedName, listedStation, nearest, placeOf, snap, stationText, stepped, wayOf } from "./along";

/** 10 m to the right drawn over 100 mm, then 5 m down drawn over 50 mm. */
const TRACK = [
  { station_m: 0, x: 0, y: 0 },
  { station_m: 10, x: 100, y: 0 },
  { station_m: 15, x: 100, y: 50 },
];
const CORNERS = [{ name: "yard corner", station_m: 10.04 }];

describe("the nearest station", () => {
  it("lies at the foot of the perpendicular", () => {
    expect(nearest(TRACK, 40, 12)).toEqual({ station_m: 4, x: 40, y: 0, away: 12 });
  });
  it("goes round the corner to the leg that is nearer", () => {
    expect(nearest(TRACK, 96, 30)?.station_m).toBe(13);
  });
  it("ends with the line", () => {
    expect(nearest(TRACK, -30, 40)).toEqual({ station_m: 0, x: 0, y: 0, away: 50 });
  });
  it("is none where nothing is drawn", () => {
    expect(nearest([], 0, 0)).toBeNull();
  });
});

describe("where a station is drawn", () => {
  it("lies between its neighbours", () => {
    expect(placeOf(TRACK, 12.5)).toEqual({ x: 100, y: 25 });
    expect(placeOf(TRACK, 0)).toEqual({ x: 0, y: 0 });
    expect(placeOf(TRACK, 15)).toEqual({ x: 100, y: 50 });
  });
  it("has a way", () => {
    expect(wayOf(TRACK, 3)).toEqual({ x: 1, y: 0 });
    expect(wayOf(TRACK, 12)).toEqual({ x: 0, y: 1 });
  });
});

describe("snapping", () => {
  it("goes to the nearest step", () => {
    expect(snap(4.36, 0.1, [], 15)).toBe(4.4);
    expect(snap(4.36, 0.5, [], 15)).toBe(4.5);
    expect(snap(4.36, 0.05, [], 15)).toBe(4.35);
  });
  it("prefers a corner within reach, whatever its station", () => {
    expect(snap(9.8, 0.1, CORNERS, 15)).toBe(10.04);
    expect(snap(9.7, 0.1, CORNERS, 15)).toBe(9.7);
  });
  it("does nothing where it is off, but for the millimetre", () => {
    expect(snap(4.36149, 0, CORNERS, 15)).toBe(4.361);
  });
  it("stays on the line", () => {
    expect(snap(15.4, 0.5, [], 15.2)).toBe(15.2);
  });
});

describe("steps by keys", () => {
  it("go along the grid from where it is", () => {
    expect(stepped(46.5, 0.1, 1, 159)).toBe(46.6);
    expect(stepped(46.53, 0.1, -1, 159)).toBe(46.5);
    expect(stepped(46.53, 0.1, 1, 159)).toBe(46.6);
    expect(stepped(0.3, 0.1, 1, 159)).toBe(0.4); // 0.3 / 0.1 is 2.9999999999999996
    expect(stepped(46.5, 0.1, 10, 159)).toBe(47.5);
    expect(stepped(0, 0.1, -1, 159)).toBe(0);
  });
  it("are written as short as they are", () => {
    expect(stationText(46.5)).toBe("46.5 m");
    expect(stationText(46.0000001)).toBe("46 m");
  });
  it("are read in whole centimetres in a list where a rule made them, name and all, and as they are where a person did", () => {
    const place = (name: string, placed_by: string): Place => ({
      id: `L/${name}`, name, line: "L", what: "hold", kind: "slide guide", station_m: 1.438845, from_m: 0, to_m: 0, placed_by, stays: "",
    });
    const ruled = place("slide guide at 1.438845 m", "spacing rule");
    expect([listedName(ruled), listedStation(ruled, 1.438845)]).toEqual(["slide guide at 1.44 m", "1.44 m"]);
    expect(listedName(place("slide guide at 26.05 m", "spacing rule"))).toBe("slide guide at 26.05 m");
    const own = place("guide at 1.438845 m", "by hand");
    expect([listedName(own), listedStation(own, 1.438845)]).toEqual(["guide at 1.438845 m", "1.439 m"]);
  });
});
