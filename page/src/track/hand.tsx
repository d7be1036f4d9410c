// Pressure and temperature by hand.     (track/hand.tsx)
import { byHand, handMoved } from "../looks";
import { look, opened } from "../store";

const ABOVE = 1.2; // the sliders go a fifth beyond the highest state

export interface Limits {
  low: number;
  high: number;
}

/** From nought, or the last whole step that is not below the lowest state, to a fifth above the highest state. */
export function limits(values: readonly number[], least: number, step: number): Limits {
  const low = round(Math.ceil(Math.min(least, ...values) / step) * step, step);
  return { low, high: Math.ceil(Math.max(1, ...values) * ABOVE) };
}

export function Hand() {
  const states = opened.value?.states ?? [];
  const pressure = limits(states.map((state) => state.pressure_bar), 0, 0.1);
  const lowest = Math.min(...states.map((state) => state.temperature_c));
  const temperature = limits(states.map((state) => state.temperature_c), Number.isFinite(lowest) ? lowest : 0, 1);
  const now = byHand.value ?? {
    pressure_bar: round(look.value?.pressure_bar ?? 0, 0.1),
    temperature_c: round(look.value?.temperature_c ?? 0, 1),
  };
  return (
    <fieldset class={byHand.value === null ? "hand" : "hand active"}>
      <legend class="unseen">Pressure and temperature by hand</legend>
      <Dial
        name="Pressure"
        unit="bar(g)"
        value={now.pressure_bar}
        limits={pressure}
        step={0.1}
        set={(pressure_bar) => (byHand.value = { ...now, pressure_bar })}
      />
      <Dial
        name="Temperature"
        unit="°C"
        value={now.temperature_c}
        limits={temperature}
        step={1}
        set={(temperature_c) => (byHand.value = { ...now, temperature_c })}
      />
      <button type="button" class="button small" disabled={byHand.value === null} onClick={() => (byHand.value = null)}>
        Back to the walk
      </button>
    </fieldset>
  );
}

function round(value: number, unit: number): number {
  return Number((Math.round(value / unit) * unit).toFixed(3));
}

interface DialProps {
  name: string;
  unit: string;
  value: number;
  limits: Limits;
  step: number;
  set: (value: number) => void;
}

function Dial({ name, unit, value, limits: { low, high }, step, set }: DialProps) {
  const moved = (event: Event & { currentTarget: HTMLInputElement }) => {
    const next = event.currentTarget.valueAsNumber;
    if (!event.currentTarget.reportValidity() || !Number.isFinite(next)) return; // the browser says the bounds
    handMoved(event);
    set(next);
  };
  return (
    <div class="dial">
      <span class="dial-name" aria-hidden="true">
        {name}
      </span>
      <input type="range" aria-label={`${name} by hand, ${unit}`} min={low} max={high} step={step} value={value} onInput={moved} />
      <input
        type="number"
        class="field number"
        required
        aria-label={`${name} by hand as a number, ${unit}`}
        min={low}
        max={high}
        step="any"
        value={value}
        onChange={moved}
      />
      <span class="quiet">{unit}</span>
    </div>
  );
}
