// Every place with its use: now, and the worst of all states.     (line/list.tsx)
import { computed } from "@preact/signals";
import { Carried } from "../carried";
import type { HoldLook, Place, PlaceUse, TakeupLook } from "../interface";
import { FULL, useText } from "../colour";
import { movedText } from "../space/labels";
import { choose, chosen, look, opened, places, room, study, whyOf } from "../store";
import { UseBar } from "../use";
import { listedName, listedStation } from "./along";
import { stationNow } from "./moving";
import { SORTS, sortOf } from "./sorts";

const holdLooks = computed(() => new Map((look.value?.holds ?? []).map((hold) => [hold.id, hold])));
const takeupLooks = computed(() => new Map((look.value?.takeups ?? []).map((takeup) => [takeup.id, takeup])));
const worstUses = computed(() => new Map((study.value?.places ?? []).map((use) => [use.id, use])));

export function PlaceList() {
  const several = (opened.value?.lines.length ?? 0) > 1;
  const all = [...places.value.values()];
  const good = ["passes", "close"].includes(study.value?.verdict ?? ""); // bends alone may do
  return (
    <section class="places" aria-labelledby="places-title">
      <div class="panel-head">
        <h2 id="places-title">What holds and takes up</h2>
        <p class="quiet small">{all.length === 0 ? "Nothing yet." : "Bar: use in this state; thin line: full. Thick mark: the worst of all states."}</p>
      </div>
      {!good && all.length > 0 && all.every((place) => place.what !== "takeup") && (
        <Bare held={all.some((place) => sortOf(place) === "anchor")} />
      )}
      {SORTS.map(({ sort, title }) => {
        const those = all.filter((place) => sortOf(place) === sort);
        if (those.length === 0) return null;
        return (
          <section key={sort} aria-label={title}>
            <h3>
              {title} <span class="number">{those.length}</span>
            </h3>
            <ul>
              {those.map((place) => (
                <Row key={place.id} place={place} several={several} />
              ))}
            </ul>
          </section>
        );
      })}
    </section>
  );
}

/** For who opens a line that nothing was arranged on yet. */
function Bare({ held }: { held: boolean }) {
  return (
    <div class="bare">
      <p>
        {held
          ? "No joint takes up growth here: the anchors are pushed with what bends do not take."
          : "Nothing anchors this line, and no joint takes up its growth."}
      </p>
      <button type="button" class="button small" onClick={() => (room.value = "proposals")}>
        Look for joints and guides
      </button>
    </div>
  );
}

function Row({ place, several }: { place: Place; several: boolean }) {
  const hold = holdLooks.value.get(place.id);
  const takeup = takeupLooks.value.get(place.id);
  const worst = worstUses.value.get(place.id);
  const use = hold?.use ?? takeup?.use ?? null;
  const measured = use !== null || (worst?.use ?? null) !== null;
  return (
    <li>
      <button
        type="button"
        class="row"
        aria-pressed={chosen.value === place.id}
        data-row={place.id}
        onClick={() => {
          choose(place.id);
          whyOf.value = place.id;
        }}
      >
        <span class="row-name" title={place.name}>
          {listedName(place)}
        </span>
        <span class="row-use number">{use === null ? force(hold, takeup) : <Use use={use} />}</span>
        {use !== null && <span class="row-what quiet small">{about(place, several)}</span>}
        {use !== null && <span class="row-load number small">{force(hold, takeup)}</span>}
        {measured && <UseBar use={use} worst={worst?.use ?? null} />}
        <span class="row-worst small quiet">{worstWords(worst)}</span>
        <Carried takeup={takeup} />
      </button>
    </li>
  );
}

function about(place: Place, several: boolean): string {
  return `${several ? `${place.line} · ` : ""}${place.kind}, ${listedStation(place, stationNow(place))}`;
}

function Use({ use }: { use: number }) {
  return (
    <>
      {useText(use)}
      {use > FULL && <strong> over full</strong>}
    </>
  );
}

function force(hold: HoldLook | undefined, takeup: TakeupLook | undefined): string {
  if (hold !== undefined) return hold.contact === "free" ? "free" : `${hold.contact} ${hold.force_kn.toFixed(1)} kN`.trim();
  if (takeup === undefined) return "";
  return movedText(takeup);
}

function worstWords(worst: PlaceUse | undefined): string {
  if (worst === undefined && study.value?.job === "done") return "all states: no check of its own";
  if (worst === undefined || worst.outcome === "not computed yet") return "all states: not computed yet";
  if (worst.use === null) return `all states: ${worst.outcome}`;
  return `all states: ${useText(worst.use)}, ${worst.outcome}`;
}
