// Places by what they are, for the list and for how a handle looks.     (line/sorts.ts)
import type { Place } from "../interface";

export type Sort = "anchor" | "joint" | "guide" | "rest" | "end";

export const SORTS: readonly { sort: Sort; title: string }[] = [
  { sort: "anchor", title: "Anchors" },
  { sort: "joint", title: "Joints" },
  { sort: "guide", title: "Guides and stops" },
  { sort: "rest", title: "Rests and hangers" },
  { sort: "end", title: "Ends" },
];

export function sortOf(place: Place): Sort {
  if (place.what === "takeup") return "joint";
  if (place.kind.includes("anchor")) return "anchor";
  if (place.what === "end") return "end";
  return /rest|hanger|spring/.test(place.kind) ? "rest" : "guide";
}
