import { describe, expect, it } from "vitest";
import { isStacked, stacked } from "./stacked";

const cell = (text: string, use: number | null = null) => ({ text, use });
const CHECKS = ["check", "use", "outcome", "demand", "capacity", "state", "because"];

describe("rows that are stacked", () => {
  it("are those of tables with reasons in words", () => {
    const table = { title: "", about: "", rows: [] };
    expect(isStacked({ ...table, head: CHECKS })).toBe(true);
    expect(isStacked({ ...table, head: ["state", "force kN"] })).toBe(false);
  });

  it("keep every word of a check", () => {
    const row = [cell("Capacity"), cell("0.69", 0.69), cell("passes"), cell("82.8 kN"), cell("120 kN"), cell("test"), cell("as given")];
    expect(stacked(CHECKS, row)).toEqual({
      name: "Capacity",
      full: cell("0.69", 0.69),
      under: "test",
      numbers: [
        { name: "outcome", text: "passes" },
        { name: "demand", text: "82.8 kN" },
        { name: "capacity", text: "120 kN" },
      ],
      source: "as given",
    });
  });

  it("say an outcome that has no use once, and nothing of what is empty", () => {
    const row = [cell("Capacity"), cell("no limit given"), cell("no limit given"), cell("82.8 kN"), cell(""), cell(""), cell("")];
    expect(stacked(CHECKS, row).numbers).toEqual([{ name: "demand", text: "82.8 kN" }]);
  });
});
