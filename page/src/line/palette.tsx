// The short list of what can be put on a line.     (line/palette.tsx)
import { useSignal } from "@preact/signals";
import { opened } from "../store";
import { adding, addAt, complete } from "./adding";
import { lineOf, snapStep } from "./moving";
import { lineName } from "../store";

export function PaletteButtons() {
  const now = adding.value;
  const items = opened.value?.palette ?? [];
  return (
    <details class="palette" data-popover>
      <summary class="button">Add</summary>
      <div class="palette-list sheet">
        {(["hold", "takeup"] as const).map((what) => (
          <section key={what}>
            <h3>{what === "hold" ? "Holds" : "Take-ups"}</h3>
            <ul>
              {items
                .filter((item) => item.what === what)
                .map((item) => (
                  <li key={item.key}>
                    <button
                      type="button"
                      aria-pressed={now?.item.key === item.key}
                      onClick={(event) => {
                        adding.value = { item, slidesOn: "" };
                        event.currentTarget.closest("details")?.removeAttribute("open");
                      }}
                    >
                      <span>{item.title}</span>
                      <span class="quiet small">{item.about}</span>
                    </button>
                  </li>
                ))}
            </ul>
          </section>
        ))}
      </div>
    </details>
  );
}

/** What must still be said, and where it shall be put. */
export function AddBar() {
  const station = useSignal("");
  const now = adding.value;
  const line = lineOf(lineName.value);
  if (now === null || line === null) return null;
  const at = Number(station.value);
  const good = station.value.trim() !== "" && Number.isFinite(at) && at >= 0 && at <= line.length_m;
  return (
    <form
      class="add-bar"
      aria-label={`Add ${now.item.title}`}
      onSubmit={(event) => {
        event.preventDefault();
        if (good) void addAt(at, true);
      }}
    >
      <strong>{now.item.title}</strong>
      {now.item.slides_on.length > 0 && (
        <label>
          slides on{" "}
          <select
            class="field"
            required
            value={now.slidesOn}
            onChange={(event) => (adding.value = { ...now, slidesOn: event.currentTarget.value })}
          >
            <option value="">choose …</option>
            {now.item.slides_on.map((words) => (
              <option key={words}>{words}</option>
            ))}
          </select>
        </label>
      )}
      <label>
        at station{" "}
        <input
          class="field number"
          type="number"
          min={0}
          max={line.length_m}
          step={snapStep.value}
          value={station.value}
          onInput={(event) => (station.value = event.currentTarget.value)}
        />{" "}
        m
      </label>
      <button type="submit" class="button first" disabled={!good || !complete(now)}>
        Put it there
      </button>
      <button type="button" class="button plain small" onClick={() => (adding.value = null)}>
        Give up
      </button>
      <span class="quiet small">{complete(now) ? "or press on the line" : "first say on what it slides"}</span>
    </form>
  );
}
