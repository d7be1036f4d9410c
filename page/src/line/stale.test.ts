import { describe, expect, it } from "vitest";
import { backWords } from "./stale";

const fault = { line: 3, column: 1, message: "no joint of the series fits" };

describe("a way back from faults", () => {
  it("is offered where something was done on the picture", () => {
    expect(backWords({ faults: [fault], undo: "putting in a hinged at 3 m" })).toBe("putting in a hinged at 3 m");
  });

  it("is not offered for what is being typed, for a text without faults, or for one that came with them", () => {
    expect(backWords({ faults: [fault], undo: "typing in line 3" })).toBe("");
    expect(backWords({ faults: [], undo: "putting in a hinged at 3 m" })).toBe("");
    expect(backWords({ faults: [fault], undo: "" })).toBe("");
  });
});
