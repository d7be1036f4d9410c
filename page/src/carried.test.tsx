// What a joint has beside its bellows: bars, numbers, words.     (carried.test.tsx)
import { render } from "preact";
import { describe, expect, it } from "vitest";
import { Carried, carriedOf, fullestOf } from "./carried";
import type { RodLook, TakeupLook } from "./interface";
import { along } from "./use";

const rod = (name: string, use: number | null, engaged = true): RodLook => ({
  name, tension_kn: 12, engaged, gap_mm: 0, capacity_kn: use === null ? null : 40, use, words: `${name} in words`,
});
const joint = (rods: RodLook[]): TakeupLook => ({
  id: "L/J1", axial_mm: 0, lateral_mm: 0, angular_deg: 0, length_mm: 600, use: null, words: "", rods,
  hardware: [{ name: "plates", force_kn: 6, capacity_kn: 60, use: 0.1, words: "twice 3.0 kN of 60 kN" }],
});

describe("what a joint has beside its bellows", () => {
  it("is told each with its number, its words and a bar as long as its use", () => {
    const host = document.createElement("div");
    render(<Carried takeup={joint([rod("rod 1", 0.3), rod("rod 2", 1.2)])} />, host);
    const rows = [...host.querySelectorAll(".carried")];
    expect(rows.map((one) => one.querySelector(".carried-use")?.textContent)).toEqual(["0.30", "1.20 over full", "0.10"]);
    expect(rows[0]!.querySelector(".carried-words")!.textContent).toBe("rod 1 in words");
    const fill = rows[0]!.querySelector<HTMLElement>(".bar-fill")!;
    expect(fill.style.width).toBe(`${100 * along(0.3)}%`);
    expect(rows[1]!.querySelector(".bar-fill.over")).not.toBeNull();
  });

  it("has no bar where nobody said what it can carry", () => {
    const host = document.createElement("div");
    render(<Carried takeup={{ ...joint([rod("rod 1", null)]), hardware: [] }} />, host);
    expect(host.querySelector(".bar")).toBeNull();
    expect(host.textContent).toBe("rod 1rod 1 in words");
    expect(carriedOf(undefined)).toEqual([]);
  });

  it("is painted as the fullest that bears", () => {
    const [one, other, slack] = [rod("rod 1", 0.3), rod("rod 2", 0.4), rod("rod 3", 0, false)];
    expect(fullestOf({ ...joint([one, other]), hardware: [] })).toBe(0.4);
    expect(fullestOf({ ...joint([slack]), hardware: [] })).toBeNull();
    expect(fullestOf({ ...joint([rod("rod 1", null)]), hardware: [] })).toBeNull();
    expect(fullestOf(joint([]))).toBe(0.1);
  });
});
