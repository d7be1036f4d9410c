// The document's lines in space.     (space/space.tsx)
import { useEffect, useState } from "preact/hooks";
import { ask } from "../client";
import type { Solids } from "../interface";
import { chosen, look, opened, outlineRevision, places, tried } from "../store";
import { Turning } from "./turning";

export function Space() {
  const solids = useSolids(outlineRevision.value);
  const document = opened.value;
  if (document === null || solids === null) return <p class="quiet pad">One moment …</p>;
  const lines = document.lines.map((line) => line.name);
  return (
    <Turning
      title={`${lines.length === 1 ? "Line" : "Lines"} ${lines.join(" and ")}`}
      solids={solids}
      whose={document.file}
      places={[...places.value.values()]}
      look={look}
      chosen={chosen.value}
      choose={(id) => (chosen.value = id === "" || places.value.has(id) ? id : chosen.value)}
    />
  );
}

/** The solids of a revision; those of the one before stay until they have come. */
function useSolids(revision: number): Solids | null {
  const [solids, set] = useState<Solids | null>(null);
  useEffect(() => {
    let wanted = revision > 0;
    if (wanted) void tried(() => ask<Solids>("/api/solids")).then((found) => wanted && found !== null && set(found));
    return () => {
      wanted = false;
    };
  }, [revision]);
  return solids;
}
