// Moving all parts of a stage: pipes as their line goes, bellows between their pipes.     (space/moving.ts)
import { Quaternion } from "three";
import type { End, Piece } from "./piece";

const SAME = 2e-3; // of the way between two nodes: an end of a pipe and the bellows that begins there

/** Move every part. `movements`: of each line's nodes [m]; a part whose line is not among them lies as it lay. */
export function moveAll(pieces: readonly Piece[], movements: ReadonlyMap<string, Float32Array>, times: number): void {
  const ends: (End & { line: string })[] = [];
  for (const piece of pieces) {
    const { line, what } = piece.part;
    const movement = movements.get(line);
    if (movement === undefined) piece.lie();
    else if (what !== "bellows") {
      const found = piece.move(movement, times);
      if (found !== null) ends.push({ ...found.first, line }, { ...found.last, line });
    }
  }
  for (const piece of pieces) {
    const { line, what } = piece.part;
    const movement = movements.get(line);
    const rings = piece.rings;
    if (what !== "bellows" || movement === undefined || rings === null) continue;
    const turnAt = (place: number) => ends.find((end) => end.line === line && Math.abs(end.place - place) < SAME)?.turn ?? STILL;
    piece.moveBetween(movement, times, turnAt(rings.place[0]!), turnAt(rings.place[rings.place.length - 1]!));
  }
}

const STILL = new Quaternion();
