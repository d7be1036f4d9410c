// What is told on a stage, and how it plays.     (scenes/scenes.test.ts)
import { describe, expect, it } from "vitest";
import type { HoldLook, LineOutline, Look, Place, RodLook, SceneFile, TakeupLook } from "../interface";
import { viewBoxOf } from "./drawing";
import { REST_MS, stateAt, stretchesOf } from "./playing";
import { actorsOf, alongPipe, rodWords, taleOf } from "./tale";

const place = (id: string, what: Place["what"], kind: string, station_m: number): Place => ({
  id, name: id.slice(2), line: "L", what, kind, station_m, from_m: 0, to_m: 0, placed_by: "", stays: "",
});
const outline: LineOutline = {
  name: "L", about: "", length_m: 12, corners: [],
  places: [place("L/E", "end", "main anchor", 12), place("L/J", "takeup", "tied axial", 6), place("L/W", "end", "main anchor", 0), place("L/G", "hold", "slide guide", 3)],
};
const hold = (id: string, along_kn: number, capacity_kn: number | null): HoldLook => ({
  id, along_kn, capacity_kn, force_kn: 70, moment_knm: 0, use: 0.9, contact: "", words: "",
});
const slackRod = (name: string, gap_mm: number): RodLook => ({
  name, gap_mm, tension_kn: 0, engaged: false, capacity_kn: 60, use: 0, words: "slack",
});
const tautRod = (name: string): RodLook => ({ ...slackRod(name, 0), tension_kn: 17.4, engaged: true, use: 0.29 });
const joint: TakeupLook = {
  id: "L/J", axial_mm: -25.6, lateral_mm: 0.1, angular_deg: 0, length_mm: 600, use: 0.85, words: "",
  rods: [slackRod("rod 1", 24.84), slackRod("rod 2", 24.9)], hardware: [],
};
const look: Look = {
  number: 1, revision: 0, words: "", pressure_bar: 12, temperature_c: 193, exaggeration: 40, trouble: "", overlays: [], movements: [],
  server_ms: 0, holds: [hold("L/W", -60, 120), hold("L/E", 60, null), hold("L/G", 0, null)], takeups: [joint],
};

describe("what is told", () => {
  it("is of the force along the pipe alone, and of its share of what an anchor carries", () => {
    const [west, east, guide] = alongPipe(look, outline).holds;
    expect(west).toMatchObject({ force_kn: 60, use: 0.5 }); // 60 of 120 kN
    expect(east).toMatchObject({ force_kn: 60, use: null });
    expect(guide).toMatchObject({ force_kn: 70 }); // a guide carries weight, which stays told
  });
  it("goes along the flow, and says which way each anchor is pushed", () => {
    const actors = actorsOf(outline, alongPipe(look, outline));
    expect(actors.map((one) => `${one.name} ${one.number} ${one.unit}`)).toEqual(["W 60.0 kN", "J 25.6 mm", "E 60.0 kN"]);
    expect(actors[0]!.words).toContain("against the flow");
    expect(actors[2]!.words).toContain("with the flow");
    expect(actors[1]!.words).toBe("shorter; its rods are slack: the nuts stand 24.8 mm off");
    expect(actorsOf(outline, null)).toEqual([]);
  });
  it("says how rods pull together", () => {
    const taut = { ...joint, rods: [tautRod("1"), tautRod("2")] };
    expect(rodWords(taut)).toBe("its rods pull with 34.8 kN");
    expect(rodWords({ ...joint, rods: [] })).toBe("");
  });
  it("calls a state by what is going on", () => {
    const at = (pressure_bar: number, temperature_c: number) => taleOf({ ...look, pressure_bar, temperature_c });
    expect(at(0, 20)).toContain("As installed");
    expect(at(12, 20)).toContain("thrust alone");
    expect(at(0, 193)).toContain("heat alone");
    expect(at(12, 193)).toContain("thrust and heat");
  });
});

describe("playing", () => {
  const file: SceneFile = {
    file: "x.yaml", title: "", highest_bar: 12, highest_c: 195, lowest_c: 20, outline, views: [],
    solids: { revision: 0, thick: 1, low_m: [0, 0, 0], high_m: [1, 1, 1], parts: [] },
  };
  it("begins as installed, presses first, then heats, then lets the pressure go", () => {
    expect(stateAt(file, 0)).toEqual({ pressure_bar: 0, temperature_c: 20 });
    expect(stateAt(file, 1250)).toEqual({ pressure_bar: 6, temperature_c: 20 }); // half of the first stretch
    expect(stateAt(file, 2500 + REST_MS + 2000)).toEqual({ pressure_bar: 12, temperature_c: 107.5 }); // half of the second
  });
  it("shows ends alone to who wants no motion", () => {
    expect(stateAt(file, 100, true)).toEqual({ pressure_bar: 12, temperature_c: 20 });
    expect(stateAt(file, 2500 + REST_MS + 1, true)).toEqual({ pressure_bar: 12, temperature_c: 195 });
  });
  it("rests where it arrived, and ends", () => {
    expect(stateAt(file, 2500 + REST_MS / 2)).toEqual({ pressure_bar: 12, temperature_c: 20 });
    const whole = stretchesOf(file).reduce((sum, one) => sum + one.ms + REST_MS, 0);
    expect(stateAt(file, whole - 1)).toEqual({ pressure_bar: 0, temperature_c: 195 });
    expect(stateAt(file, whole + 1)).toBeNull();
  });
});

describe("drawings", () => {
  it("show what their root says", () => {
    expect(viewBoxOf('<svg width="9mm" viewBox="0 0 184 47.5" role="img">')).toBe("0 0 184 47.5");
    expect(viewBoxOf("<svg>")).toBe("0 0 100 100");
  });
});
