// What happens on a stage, in sentences and numbers.     (scenes/tale.ts)
import type { HoldLook, LineOutline, Look, Place, TakeupLook } from "../interface";
import { sortOf } from "../line/sorts";
import { movedText } from "../space/labels";

/** A thing on the stage whose number is told: an anchor or a joint. */
export interface Actor {
  id: string;
  name: string;
  number: string;
  unit: string;
  words: string;
  use: number | null;
  takeup?: TakeupLook;
}

/**
 * A look in which anchors have the force along the pipe alone, as scenes tell of it and draw it.
 *
 * Their weight and what comes sideways is left out, and so it is of their use.
 */
export function alongPipe(look: Look, outline: LineOutline): Look {
  const anchors = new Set(outline.places.filter((place) => sortOf(place) === "anchor").map((place) => place.id));
  const holds = look.holds.map((hold): HoldLook => {
    if (!anchors.has(hold.id)) return hold;
    const force_kn = Math.abs(hold.along_kn);
    return { ...hold, force_kn, use: hold.capacity_kn === null ? null : force_kn / hold.capacity_kn };
  });
  return { ...look, holds };
}

/** Anchors and joints along the flow, each with its number. */
export function actorsOf(outline: LineOutline, look: Look | null): Actor[] {
  const holds = new Map((look?.holds ?? []).map((one) => [one.id, one]));
  const takeups = new Map((look?.takeups ?? []).map((one) => [one.id, one]));
  const places = [...outline.places].sort((a, b) => a.station_m - b.station_m);
  return places.flatMap((place) => {
    const [hold, takeup] = [holds.get(place.id), takeups.get(place.id)];
    if (hold !== undefined && sortOf(place) === "anchor") return [anchor(place, hold)];
    return takeup === undefined ? [] : [joint(place, takeup)];
  });
}

function anchor(place: Place, hold: HoldLook): Actor {
  const carries = hold.capacity_kn === null ? "" : `; it carries ${Number(hold.capacity_kn.toFixed(1))}\u00a0kN`;
  const words = `${wayWords(hold.along_kn)}${carries}`;
  return { id: place.id, name: place.name, number: hold.force_kn.toFixed(1), unit: "kN", words, use: hold.use };
}

/** Which way a force pushes along the pipe; less than is written is none. */
function wayWords(along_kn: number): string {
  if (Math.abs(along_kn) < LEAST_KN) return "nothing along the pipe";
  return along_kn > 0 ? "along the pipe, with the flow" : "along the pipe, against the flow";
}

const LEAST_KN = 0.05;

function joint(place: Place, takeup: TakeupLook): Actor {
  const said = movedText(takeup);
  const [number, unit, ...way] = said === "as fitted" ? ["0.0", "mm"] : said.replace("°", " °").split(" ");
  const rods = rodWords(takeup);
  const words = [way.join(" ") || "as fitted", rods].filter((one) => one !== "").join("; ");
  return { id: place.id, name: place.name, number: number ?? "", unit: unit ?? "", words, use: takeup.use, takeup };
}

/** What the rods of a joint do; "" where it has none. */
export function rodWords(takeup: TakeupLook): string {
  if (takeup.rods.length === 0) return "";
  const pull = takeup.rods.reduce((sum, rod) => sum + rod.tension_kn, 0);
  if (takeup.rods.some((rod) => rod.engaged)) return `its rods pull with ${pull.toFixed(1)} kN`;
  const gap = Math.min(...takeup.rods.map((rod) => rod.gap_mm));
  return `its rods are slack: the nuts stand ${gap.toFixed(1)} mm off`;
}

/** The state in a sentence, and what came of it. */
export function taleOf(look: Look): string {
  const cold = look.temperature_c < WARM_C;
  const none = look.pressure_bar < LEAST_BAR;
  if (cold && none) return "As installed: cold, and no pressure yet.";
  if (none) return "Hot, and no pressure: what is felt now comes of heat alone.";
  if (cold) return "Cold, and under pressure: what is felt now is thrust alone.";
  return "Hot and at pressure: thrust and heat together.";
}

const WARM_C = 25; // five kelvin over installation, as the scenes draw a pipe as hot
const LEAST_BAR = 0.05;
