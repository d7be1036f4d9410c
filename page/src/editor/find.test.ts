import { describe, expect, it } from "vitest";
import { findName, positionOf, rangeOf } from "./find";

const TEXT = [
  "# the middle anchor, name: middle anchor",
  "route:",
  "  - { start: boiler house header, as: main anchor }",
  "  - { go: 96 m east, to: roof corner }",
  "holds:",
  "  - { kind: intermediate anchor, name: middle anchor, at: roof corner - 3 m }",
  "takeups:",
  "  - name: J1",
  "    kind: single",
  "  - name: J12",
].join("\n");

describe("where a place is named", () => {
  it("is found in a list in one line, and not in a comment", () => {
    expect(TEXT.slice(findName(TEXT, "middle anchor")).split("\n")[0]).toBe("middle anchor, at: roof corner - 3 m }");
  });
  it("is found over several lines, and not in a longer name", () => {
    expect(TEXT.slice(findName(TEXT, "J1"), findName(TEXT, "J1") + 3)).toBe("J1\n");
    expect(TEXT.slice(findName(TEXT, "J12"))).toBe("J12");
  });
  it("is found as a place of the route", () => {
    expect(findName(TEXT, "boiler house header")).toBe(TEXT.indexOf("boiler house header"));
  });
  it("is not found where a rule placed it", () => {
    expect(findName(TEXT, "guide at 4.2 m")).toBe(-1);
  });
});

describe("where a fault is", () => {
  it("counts lines and columns from one", () => {
    expect(TEXT[positionOf(TEXT, 5, 1)]).toBe("h");
    expect(positionOf(TEXT, 99, 99)).toBe(TEXT.length);
  });
  it("marks the word at its place, at least a letter", () => {
    const { from, to } = rangeOf(TEXT, 9, 11);
    expect(TEXT.slice(from, to)).toBe("single");
    expect(rangeOf("a: \n", 1, 4)).toEqual({ from: 3, to: 4 });
    expect(rangeOf("", 1, 1)).toEqual({ from: 0, to: 0 });
  });
});
