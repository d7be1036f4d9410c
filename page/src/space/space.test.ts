// The turning view's own arithmetic: decoding, moving, edges, the eye, labels.     (space/space.test.ts)
import { Quaternion, Vector3 } from "three";
import { describe, expect, it } from "vitest";
import type { HoldLook, Look, Place, TakeupLook } from "../interface";
import type { Triple } from "./camera";
import { axesOf, distanceFor, eyesFor, towardsEye, turned, halfFor, reachOf } from "./camera";
import { armsOf } from "./compass";
import { creased } from "./crease";
import { floatsOf, wholesOf } from "./decode";
import type { Riding } from "./displace";
import type { Skins } from "./rings";
import { movedMiddles, place, ringsOf, turnsBetween, turnsOf } from "./rings";
import { mostTimes, spanOf, spoken } from "./times";
import { forceText, labelsOf, movedText } from "./labels";

describe("decoding", () => {
  it("reads little-endian float32", () => {
    // 1.0 is 00 00 80 3f and -2.5 is 00 00 20 c0 in IEEE 754, lowest byte first (by hand)
    expect([...floatsOf("AACAPwAAIMA=")]).toEqual([1, -2.5]);
  });
  it("reads little-endian uint32, and nothing from nothing", () => {
    expect([...wholesOf("AQAAAAABAAA=")]).toEqual([1, 256]); // 01 00 00 00, 00 01 00 00
    expect(wholesOf("")).toHaveLength(0);
  });
});

describe("moving", () => {
  /** A pipe of 2 m to the east between two nodes, of three rings with four vertices at 0.1 m. */
  const ring = [[1, 0], [0, 1], [-1, 0], [0, -1]].map(([y, z]) => [0.1 * y!, 0.1 * z!]);
  const riding = {
    rest: Float32Array.from([0, 1, 2].flatMap((x) => ring.flatMap(([y, z]) => [x, y!, z!]))),
    node: Uint32Array.from({ length: 12 }, () => 0),
    share: Float32Array.from([0, 0.5, 1].flatMap((share) => [share, share, share, share])),
  };
  const rings = ringsOf(riding)!;
  const skins = (): Skins => ({
    rest: riding.rest,
    restNormal: riding.rest.map((value, k) => (k % 3 === 0 ? 0 : value * 10)),
    into: new Float32Array(36),
    intoNormal: new Float32Array(36),
  });
  const put = (movement: number[], times: number) => {
    const [found, moved] = [skins(), movedMiddles(rings, Float32Array.from(movement), times)];
    place(found, rings, moved, turnsOf(rings, moved));
    return found;
  };
  it("finds the rings of a pipe", () => {
    expect([...rings.place]).toEqual([0, 0.5, 1]);
    expect([...rings.centre]).toEqual([0, 0, 0, 1, 0, 0, 2, 0, 0]);
    expect(ringsOf({ rest: new Float32Array(3), node: new Uint32Array(), share: new Float32Array() })).toBeNull();
  });
  it("takes each ring between its node and the next, so many times as far", () => {
    const { into } = put([0, 0, 0, 0.01, 0, 0], 100);
    // the far node moves 10 mm east, a hundred times: its ring 1 m, the middle one half of that; nothing turns
    [3, 0.1, 0].forEach((value, j) => expect(into[24 + j]).toBeCloseTo(value, 5)); // float32 has seven figures
    [1.5, 0.1, 0].forEach((value, j) => expect(into[12 + j]).toBeCloseTo(value, 5));
  });
  it("turns the rings with the line, so that a pipe stays as thick as it is", () => {
    const { into, intoNormal } = put([0, 0, 0, -0.02, 0.02, 0], 100);
    // the far end goes from (2, 0) to (0, 2): the pipe now runs north; what was north of it is west of it
    [-0.1, 2, 0].forEach((value, j) => expect(into[24 + j]).toBeCloseTo(value, 5));
    [-1, 0, 0].forEach((value, j) => expect(intoNormal[24 + j]).toBeCloseTo(value, 5));
  });
  it("turns a bellows evenly from one pipe to the other", () => {
    const quarter = new Quaternion().setFromAxisAngle(new Vector3(0, 0, 1), Math.PI / 2);
    const half = turnsBetween(rings, new Quaternion(), quarter)[1]!;
    expect(2 * Math.acos(half.w)).toBeCloseTo(Math.PI / 4, 9);
  });
  it("moves sixty thousand vertices well within a picture's time", () => {
    const count = 60_000;
    const many: Riding = {
      rest: Float32Array.from({ length: 3 * count }, (_, k) => (k % 3 === 0 ? Math.floor(k / 60) : Math.sin(k))),
      node: new Uint32Array(count),
      share: Float32Array.from({ length: count }, (_, k) => Math.floor(k / 20) / (count / 20)),
    };
    const those = ringsOf(many)!;
    const skin = { rest: many.rest, restNormal: many.rest, into: new Float32Array(3 * count), intoNormal: new Float32Array(3 * count) };
    const movement = Float32Array.from([0, 0, 0, 0.02, 0.04, 0]);
    const once = () => {
      const moved = movedMiddles(those, movement, 50);
      place(skin, those, moved, turnsOf(those, moved));
    };
    for (let k = 0; k < 20; k++) once(); // until it is compiled
    const began = performance.now();
    for (let k = 0; k < 10; k++) once();
    const each = (performance.now() - began) / 10;
    // 5 ms each are wanted; ten times as much is allowed, for the test's machine may have other work to do
    expect(each).toBeLessThan(50);
  });
});

describe("how many times", () => {
  // a bellows from x = 1 m to 1.5 m, between node 0 and node 1, two vertices at each end
  const riding = {
    rest: Float32Array.from([1, 1, 0, 1, -1, 0, 1.5, 1, 0, 1.5, -1, 0]),
    node: Uint32Array.from([0, 0, 0, 0]),
    share: Float32Array.from([0.5, 0.5, 1, 1]),
  };
  const span = spanOf(riding)!;
  it("finds how a bellows lies", () => {
    expect(span).toMatchObject({ first: 0.5, last: 1, way: [1, 0, 0], length: 0.5 });
    expect(spanOf({ rest: new Float32Array(3), node: new Uint32Array(), share: new Float32Array() })).toBeNull();
  });
  it("keeps a bellows from being drawn inside out", () => {
    // node 1 moves 20 mm back, node 0 not: the ends come 10 mm nearer; half of 0.5 m over 10 mm is 25 times (by hand)
    expect(mostTimes(span, Float32Array.from([0, 0, 0, -0.02, 0, 0]))).toBeCloseTo(25, 4); // float32
    expect(mostTimes(span, Float32Array.from([0, 0, 0, 0.02, 0, 0]))).toBe(Infinity);
  });
  it("says no more than two figures, and never more than may be", () => {
    expect([spoken(35.9), spoken(357), spoken(4.9), spoken(0.4), spoken(Infinity)]).toEqual([35, 350, 4, 0.4, Infinity]);
  });
});

/** A cube of side 2 with eight vertices, its faces seen from outside. */
const CUBE = Float32Array.from([-1, 1].flatMap((x) => [-1, 1].flatMap((y) => [-1, 1].flatMap((z) => [x, y, z]))));
const QUADS = [
  [0, 1, 3, 2],
  [4, 6, 7, 5],
  [0, 4, 5, 1],
  [2, 3, 7, 6],
  [0, 2, 6, 4],
  [1, 5, 7, 3],
];
const FACES = Uint32Array.from(QUADS.flatMap(([a, b, c, d]) => [a!, b!, c!, a!, c!, d!]));

describe("edges", () => {
  it("keeps those of a box: three vertices at each corner, with the normals of its faces", () => {
    const skin = creased(CUBE, FACES);
    expect(skin.from).toHaveLength(24);
    for (let k = 0; k < skin.normal.length; k += 3) {
      const normal = [...skin.normal.slice(k, k + 3)].map(Math.abs).sort();
      expect(normal).toEqual([0, 0, 1]);
    }
  });
  it("keeps a round pipe round: a ring of sixteen has no vertex more", () => {
    const ring = Array.from({ length: 16 }, (_, k) => (2 * Math.PI * k) / 16);
    const position = Float32Array.from(ring.flatMap((a) => [Math.cos(a), Math.sin(a), 0, Math.cos(a), Math.sin(a), 1]));
    const index = Uint32Array.from(
      ring.flatMap((_, k) => {
        const next = (k + 1) % 16;
        return [2 * k, 2 * next, 2 * next + 1, 2 * k, 2 * next + 1, 2 * k + 1];
      }),
    );
    const skin = creased(position, index);
    expect(skin.from).toHaveLength(32);
    // the mean normal of both faces at a vertex points outward there; triangles weigh unevenly: within six degrees
    for (let k = 0; k < 32; k++) {
      const [x, y] = [skin.normal[3 * k]!, skin.normal[3 * k + 1]!];
      expect(x * skin.position[3 * k]! + y * skin.position[3 * k + 1]!).toBeGreaterThan(Math.cos((6 * Math.PI) / 180));
    }
  });
  it("leaves triangles without an area alone", () => {
    const skin = creased(Float32Array.from([0, 0, 0, 1, 0, 0, 1, 1, 0]), Uint32Array.from([0, 1, 2, 0, 2, 2]));
    expect(skin.from).toHaveLength(3);
    expect([...skin.normal.slice(0, 3)]).toEqual([0, 0, 1]);
  });
});

const EYES = eyesFor([10, 2, 1]);

describe("the eye", () => {
  it("sees a line across its length", () => {
    expect(axesOf(eyesFor([10, 2, 1]).side).right[0]).toBeCloseTo(1, 9); // east runs to the right
    expect(axesOf(eyesFor([2, 10, 1]).side).right[1]).toBeCloseTo(1, 9); // north does
  });
  it("has axes that stand square to each other", () => {
    for (const eye of Object.values(EYES)) {
      const [away, { right, up }] = [towardsEye(eye), axesOf(eye)];
      for (const [a, b] of [[away, right], [away, up], [right, up]] as const) expect(dot(a, b)).toBeCloseTo(0, 9);
    }
  });
  it("stands so far off that the box fills the picture", () => {
    // seen from the side, 8 m long, 2 m high and deep, in a picture twice as wide as high with 45 degrees up: the near
    // face is 1 m nearer, and 4/2 = 2 m of height are needed at it: 2 + 1 (by hand)
    expect(distanceFor([4, 1, 1], EYES.side, 1, 2)).toBeCloseTo(3, 9);
  });
  it("never goes over the top", () => {
    expect(turned(EYES.turned, 0, 10).above).toBeLessThan(Math.PI / 2);
    expect(turned(EYES.turned, 0.25, 0).around).toBeCloseTo(EYES.turned.around + 0.25, 12);
  });
  it("shows north upwards from above, and up upwards from the side", () => {
    const [, north, up] = armsOf(EYES.plan);
    expect(north!.y).toBeLessThan(-16);
    expect(up!.seen).toBe(false);
    expect(armsOf(EYES.side)[2]!.y).toBeLessThan(-16);
  });
});

function dot(a: Triple, b: Triple): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

const hold = (id: string, force_kn: number, use: number | null): HoldLook => ({
  id, force_kn, use, along_kn: force_kn, moment_knm: 0, capacity_kn: null, contact: "", words: "",
});
const joint = (axial_mm: number, lateral_mm: number): TakeupLook => ({
  id: "L/J1", axial_mm, lateral_mm, angular_deg: 0, length_mm: 600, use: 0.4, words: "", rods: [], hardware: [],
});
const placed = (id: string, what: Place["what"], kind: string): Place => ({
  id, name: id.slice(2), line: "L", what, kind, station_m: 0, from_m: 0, to_m: 0, placed_by: "", stays: "",
});

describe("labels", () => {
  it("are those of anchors, joints and what is chosen", () => {
    const places = [placed("L/A", "hold", "main anchor"), placed("L/J1", "takeup", "single axial"), placed("L/G", "hold", "slide guide")];
    const look: Look = {
      number: 1, revision: 1, words: "", pressure_bar: 0, temperature_c: 0, exaggeration: 1, trouble: "", overlays: [],
      movements: [], server_ms: 0, holds: [hold("L/A", 55.24, 0.46), hold("L/G", 1, null)], takeups: [joint(-28.13, 1)],
    };
    expect(labelsOf(places, look, "").map((one) => one.number)).toEqual(["55.2 kN", "28.1 mm shorter"]);
    expect(labelsOf(places, look, "L/G").map((one) => one.name)).toEqual(["A", "J1", "G"]);
    expect(labelsOf(places, null, "")[0]).toMatchObject({ number: "", use: null });
  });
  it("say what a joint does most", () => {
    expect(movedText(joint(4, 0))).toBe("4.0 mm longer");
    expect(movedText(joint(-3, 40))).toBe("40.0 mm sideways");
    expect(movedText(joint(-0.04, 0.03))).toBe("as fitted");
    expect(movedText({ ...joint(0.3, 0), angular_deg: 0.96 })).toBe("0.96° turned"); // a hinge: its plates give a little
    expect(movedText({ ...joint(-3, 0), angular_deg: 0.96 })).toBe("3.0 mm shorter");
    expect(forceText(100)).toBe("100.0 kN");
  });
});

describe("room for what moves", () => {
  it("is that of the line with its labels, or of what is drawn moved where that is more", () => {
    const reach = reachOf([Float32Array.from([0, 0, 0, 0.0625, -0.5, 0]), Float32Array.from([-0.125, 0.25, 0])], 50);
    expect(reach).toEqual([6.25, 25, 0]); // powers of two: exact in float32
    expect(halfFor([34, 7, 1], 1.12, [3.6, 0.1, 0])).toEqual([20.6, 0.5 * 7 * 1.12, 0.5 * 1.12]);
  });
});
