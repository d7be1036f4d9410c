// A use as it is shown everywhere: the number in its colour, and a bar that is hatched where it is over full. (use.tsx)
import { colourOf, FULL, inkOn, useText } from "./colour";

/** The number on its colour. */
export function UseChip({ use, text }: { use: number; text?: string }) {
  const over = use > FULL;
  return (
    <span class={over ? "chip number over" : "chip number"} style={{ backgroundColor: colourOf(use), color: inkOn(use) }}>
      {text ?? useText(use)}
    </span>
  );
}

const ROOM = 1.25; // a bar has room for a quarter more than full, so that the mark of full stands within it

/** How far along the bar a use lies [share of its length]. */
export function along(use: number): number {
  return Math.min(Math.max(use, 0), ROOM) / ROOM;
}

/** The bar; `worst` is the thin mark of the worst of all states. Its words stand beside it, so it is not read out. */
export function UseBar({ use, worst }: { use: number | null; worst: number | null }) {
  return (
    <span class="bar" aria-hidden="true">
      {use !== null && (
        <span
          class={use > FULL ? "bar-fill over" : "bar-fill"}
          style={{ width: `${100 * along(use)}%`, backgroundColor: colourOf(use) }}
        />
      )}
      <span class="bar-full" style={{ left: `${100 * along(FULL)}%` }} />
      {worst !== null && <span class="bar-worst" style={{ left: `${100 * along(worst)}%` }} />}
    </span>
  );
}
