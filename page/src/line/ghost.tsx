// Where what is being added would come to lie.     (line/ghost.tsx)
import type { View } from "../interface";
import { adding, complete } from "./adding";
import { nearest, placeOf, snap, stationText } from "./along";
import type { Frame, Size } from "./frame";
import { toRoom, toSheet } from "./frame";
import { lineOf, snapStep } from "./moving";

interface Props {
  view: View;
  frame: Frame;
  room: Size;
  pointer: { x: number; y: number } | null;
}

export function Ghost({ view, frame, room, pointer }: Props) {
  const line = lineOf(view.line);
  if (pointer === null || line === null || !complete(adding.value)) return null;
  const point = toSheet(frame, pointer, room);
  const near = nearest(view.track, point.x, point.y);
  if (near === null) return null;
  const station = snap(near.station_m, snapStep.value, line.corners, line.length_m);
  const place = placeOf(view.track, station);
  if (place === null) return null;
  const at = toRoom(frame, place, room);
  return (
    <div class="ghost" aria-hidden="true" style={{ transform: `translate(${at.x}px, ${at.y}px)` }}>
      <span class="ghost-mark" />
      <span class="handle-words">{stationText(station)}</span>
    </div>
  );
}
