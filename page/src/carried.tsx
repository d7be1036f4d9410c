// Rods, plates, bars and ties of a joint: each with what it carries, its use as a bar, and the number.     (carried.tsx)
import { FULL, useText } from "./colour";
import type { HardwareLook, RodLook, TakeupLook } from "./interface";
import { UseBar } from "./use";

/** All that a joint has beside its bellows, in the state looked at. */
export function carriedOf(takeup: TakeupLook | undefined): (RodLook | HardwareLook)[] {
  return takeup === undefined ? [] : [...takeup.rods, ...takeup.hardware];
}

/** The fullest of them that bears; null where none bears or nobody said what any can carry. */
export function fullestOf(takeup: TakeupLook): number | null {
  const bearing = [...takeup.rods.filter((rod) => rod.engaged), ...takeup.hardware];
  return bearing.reduce<number | null>((most, one) => (one.use === null ? most : Math.max(one.use, most ?? 0)), null);
}

export function Carried({ takeup }: { takeup: TakeupLook | undefined }) {
  return carriedOf(takeup).map((one) => (
    <span key={one.name} class="carried small">
      <span class="carried-name">{one.name}</span>
      <span class="carried-words number">{one.words}</span>
      {one.use !== null && (
        <span class="carried-use number">
          {useText(one.use)}
          {one.use > FULL && <strong> over full</strong>}
        </span>
      )}
      {one.use !== null && <UseBar use={one.use} worst={null} />}
    </span>
  ));
}
