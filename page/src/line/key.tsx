// What the strokes over the drawing mean, and how many times movements are drawn.     (line/key.tsx)
import { drawnTimes } from "../looks";
import { look } from "../store";

const LEAST_M = 0.00005; // half of a tenth of a millimetre: it would be told as 0.0 mm

/** The greatest movement of any node [m]; movements are x y z of one after the other. */
export function greatest(movements: readonly { movement_m: readonly number[] }[]): number {
  let most = 0;
  for (const { movement_m: all } of movements)
    for (let i = 0; i + 2 < all.length; i += 3) most = Math.max(most, Math.hypot(all[i] ?? 0, all[i + 1] ?? 0, all[i + 2] ?? 0));
  return most;
}

export function Key() {
  const seen = look.value;
  if (seen === null || seen.trouble !== "") return null;
  const times = Number(drawnTimes.value.toFixed(drawnTimes.value < 10 ? 1 : 0));
  const most = greatest(seen.movements);
  if (most < LEAST_M) return <p class="picture-key small">Nothing moves in this state.</p>;
  return (
    <p class="picture-key small">
      Moves up to <span class="number">{(1000 * most).toFixed(1)} mm</span>; drawn <strong class="number">{times}</strong> times
    </p>
  );
}
