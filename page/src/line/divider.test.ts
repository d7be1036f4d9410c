import { describe, expect, it } from "vitest";
import { allowed, LEAST, MOST, widthByKey, widthFrom } from "./divider";

describe("the width of the file's pane", () => {
  it("is what was kept, unless that is none", () => {
    expect(widthFrom("40")).toBe(40);
    for (const kept of [null, "", "wide", "0", "99", "NaN"]) expect(widthFrom(kept)).toBe(widthFrom(null));
  });

  it("leaves room for both sides", () => {
    expect(allowed(-5)).toBe(LEAST);
    expect(allowed(300)).toBe(MOST);
    expect(allowed(30.4)).toBe(30);
  });

  it("goes by keys, and other keys mean nothing", () => {
    expect(widthByKey("ArrowRight", 30)).toBeGreaterThan(30);
    expect(widthByKey("ArrowLeft", 30)).toBeLessThan(30);
    expect(widthByKey("End", 30)).toBe(MOST);
    expect(widthByKey("Home", 30)).toBe(LEAST);
    expect(widthByKey("a", 30)).toBeNull();
  });
});
