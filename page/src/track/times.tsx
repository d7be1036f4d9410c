// How many times movements are drawn: never hidden.     (track/times.tsx)
import { drawnTimes, exaggeration, handMoved } from "../looks";
import { POSITIONS, positionOf, timesAt } from "./scale";

export function Times() {
  const times = drawnTimes.value;
  return (
    <div class="dial times">
      <span class="dial-name">
        Movements drawn <strong class="number">{Number(times.toFixed(times < 10 ? 1 : 0))}</strong> times
      </span>
      <input
        type="range"
        aria-label="How many times movements are drawn"
        aria-valuetext={`${Number(times.toFixed(1))} times`}
        min={0}
        max={POSITIONS}
        step={1}
        value={positionOf(times)}
        onInput={(event) => {
          handMoved(event);
          exaggeration.value = timesAt(event.currentTarget.valueAsNumber);
        }}
      />
      <button type="button" class="button small plain" disabled={exaggeration.value === 0} onClick={() => (exaggeration.value = 0)}>
        Choose for me
      </button>
    </div>
  );
}
