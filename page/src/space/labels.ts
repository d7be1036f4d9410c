// What is written beside anchors and joints in the turning view.     (space/labels.ts)
import type { HoldLook, Look, Place, TakeupLook } from "../interface";
import { listedName } from "../line/along";
import { sortOf } from "../line/sorts";

/** A label: whose it is, and what it says. */
export interface Label {
  id: string;
  name: string;
  number: string;
  use: number | null;
}

/** Labels of anchors, of joints, and of what is chosen. */
export function labelsOf(places: readonly Place[], look: Look | null, chosen: string): Label[] {
  const holds = new Map((look?.holds ?? []).map((one) => [one.id, one]));
  const takeups = new Map((look?.takeups ?? []).map((one) => [one.id, one]));
  return places.filter((place) => isTold(place, chosen)).map((place) => labelOf(place, holds, takeups));
}

function isTold(place: Place, chosen: string): boolean {
  return place.id === chosen || sortOf(place) === "anchor" || sortOf(place) === "joint";
}

function labelOf(place: Place, holds: Map<string, HoldLook>, takeups: Map<string, TakeupLook>): Label {
  const [hold, takeup] = [holds.get(place.id), takeups.get(place.id)];
  const number = hold !== undefined ? forceText(hold.force_kn) : takeup !== undefined ? movedText(takeup) : "";
  return { id: place.id, name: listedName(place), number, use: (hold ?? takeup)?.use ?? null };
}

/** A force as it is written everywhere. */
export function forceText(kn: number): string {
  return `${kn.toFixed(1)} kN`;
}

/** What a joint does most: shorter or longer, sideways where that is more; turned where its pins let it do nothing else. */
export function movedText(joint: TakeupLook): string {
  const [along, aside] = [Math.abs(joint.axial_mm), Math.abs(joint.lateral_mm)];
  if (Math.max(along, aside) < GIVE_MM && joint.angular_deg >= LEAST_DEG) return `${joint.angular_deg.toFixed(2)}° turned`;
  if (aside > along && aside >= LEAST_MM) return `${aside.toFixed(1)} mm sideways`;
  if (along < LEAST_MM) return "as fitted";
  return `${along.toFixed(1)} mm ${joint.axial_mm < 0 ? "shorter" : "longer"}`;
}

const LEAST_MM = 0.05; // less would be written as 0.0
const LEAST_DEG = 0.05; // less is the sag of any joint between its supports
const GIVE_MM = 1; // pins and plates give so much as they are pulled
