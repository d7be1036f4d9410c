import { describe, expect, it } from "vitest";
import { colourOf, inkOn } from "./colour";

/** Contrast of two colours, WCAG 2.2, relative luminance. */
function contrast(a: string, b: string): number {
  const light = (hex: string) => {
    const [r, g, blue] = [1, 3, 5].map((i) => {
      const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * blue!;
  };
  const [high, low] = [Math.max(light(a), light(b)), Math.min(light(a), light(b))];
  return (high + 0.05) / (low + 0.05);
}

describe("the ramp of use", () => {
  it("has the five support points of drawing/colour.py", () => {
    expect([0, 0.25, 0.5, 0.75, 1].map(colourOf)).toEqual(["#00204c", "#414d6b", "#7c7b78", "#bcae6c", "#ffea46"]);
  });

  it("is linear between them: halfway between the first two, by hand", () => {
    expect(colourOf(0.125)).toBe("#21375c"); // (0+65)/2 = 32.5 -> 33, (32+77)/2 = 54.5 -> 55, (76+107)/2 = 91.5 -> 92
  });

  it("stays at the last colour beyond full", () => {
    expect(colourOf(1.7)).toBe(colourOf(1));
  });

  it("has a number that is read on every colour: at least 4.5 : 1 (WCAG 2.2, 1.4.3)", () => {
    for (let use = 0; use <= 1.2; use += 0.01) expect(contrast(colourOf(use), inkOn(use))).toBeGreaterThanOrEqual(4.5);
  });
});
