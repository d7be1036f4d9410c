import { describe, expect, it } from "vitest";
import { fitted, panned, started, toRoom, toSheet, viewBox, zoomed } from "./frame";

const SHEET = { width: 400, height: 100 };
const ROOM = { width: 808, height: 408 };

describe("what is seen of a sheet", () => {
  it("is all of it at first: 800 pixels less the margins for 400 mm", () => {
    expect(fitted(SHEET, ROOM)).toEqual({ x: 200, y: 50, scale: 2 });
    expect(viewBox(fitted(SHEET, ROOM), ROOM)).toBe("-2 -52 404 204");
  });
  it("keeps the point under the pointer where it is when it is zoomed", () => {
    const before = fitted(SHEET, ROOM);
    const at = { x: 100, y: 300 };
    const after = zoomed(before, 3, at, ROOM, 0.5);
    const there = toRoom(after, toSheet(before, at, ROOM), ROOM);
    expect(after.scale).toBe(6);
    expect(there.x).toBeCloseTo(100, 9); // nine places: rounding of doubles near 1e3 is 1e-13
    expect(there.y).toBeCloseTo(300, 9);
  });
  it("does not go below the least scale", () => {
    expect(zoomed(fitted(SHEET, ROOM), 0.001, { x: 0, y: 0 }, ROOM, 1).scale).toBe(1);
  });
  it("is not lost from sight when it is moved", () => {
    expect(panned(fitted(SHEET, ROOM), 1e6, -1e6, SHEET)).toEqual({ x: 0, y: 100, scale: 2 });
    expect(panned(fitted(SHEET, ROOM), 20, 10, SHEET)).toEqual({ x: 190, y: 45, scale: 2 });
  });
  it("is the line and its names at first where the words of the whole sheet would be too small", () => {
    const short = { ...SHEET, track: [{ x: 200, y: 50 }, { x: 260, y: 50 }] };
    const seen = started(short, ROOM); // 112 mm and 52 mm: there is room for more than the 4 pixels that are read
    expect(seen).toEqual({ x: 230, y: 50, scale: 4 });
    const long = { ...SHEET, track: [{ x: 10, y: 50 }, { x: 390, y: 50 }] };
    expect(started(long, ROOM)).toEqual({ ...fitted(SHEET, ROOM) }); // it fills the sheet
    expect(started({ ...short, width: 100, height: 50 }, ROOM)).toEqual(fitted({ width: 100, height: 50 }, ROOM));
  });
});
