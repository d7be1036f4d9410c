// Why: everything about one place, and what would change it.     (why/why.tsx)
import { useSignal, useSignalEffect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { Carried } from "../carried";
import { ask } from "../client";
import type { Cell, Table, Why } from "../interface";
import { listedName } from "../line/along";
import { focusOn } from "../line/handles";
import { remove } from "../line/moving";
import { Icon } from "../shell/icon";
import { found, look, outlineRevision, places, study, tried, whyOf } from "../store";
import { UseBar, UseChip } from "../use";
import { isStacked, StackedTable } from "./stacked";

export function WhyPanel() {
  const why = useSignal<Why | null>(null);
  const title = useRef<HTMLHeadingElement>(null);
  useSignalEffect(() => {
    const id = whyOf.value;
    const wanted = [outlineRevision.value, found.value, study.value?.job];
    if (id === "" || wanted[0] === 0) return;
    void tried(() => ask<Why>(`/api/why?id=${encodeURIComponent(id)}`)).then((told) => {
      if (told !== null && told.id === whyOf.peek()) why.value = told;
    });
  });
  useEffect(() => {
    if (document.activeElement === document.body) title.current?.focus(); // the row that was pressed is gone
  }, [whyOf.value]);
  const told = why.value?.id === whyOf.value ? why.value : null;
  const place = places.value.get(whyOf.value);
  return (
    <section class="why" aria-labelledby="why-title" onKeyDown={(event) => event.key === "Escape" && close()}>
      <div class="panel-head why-head">
        <Icon name="back" title="Back to all places (Escape)" press={close} />
        <h2 id="why-title" ref={title} tabIndex={-1}>
          {place === undefined ? (told?.title ?? "Why") : listedName(place)}
        </h2>
        {place !== undefined && place.what !== "end" && (
          <Icon name="remove" title={`Remove ${place.name} (Delete); undo brings it back`} press={() => void remove(place)} />
        )}
      </div>
      {told === null && <p class="quiet pad">Asking why …</p>}
      <div class="why-body">
        <Now id={whyOf.value} />
        {told?.says.map((words, i) => (
          <p key={i}>{words}</p>
        ))}
        {told?.tables.map((table) => (
          <WhyTable key={table.title} table={table} />
        ))}
        {told !== null && told.waiting !== "" && (
          <p class="quiet" role="status">
            {told.waiting}
          </p>
        )}
      </div>
    </section>
  );
}

/** How it stands in the state that is looked at; follows the walk and the hand. */
function Now({ id }: { id: string }) {
  const seen = look.value;
  const here = seen?.holds.find((one) => one.id === id) ?? seen?.takeups.find((one) => one.id === id);
  if (seen === null || here === undefined) return null;
  return (
    <div class="why-now">
      <p>
        <span class="quiet small">{seen.words}</span>
        <br />
        {here.words}
      </p>
      {here.use !== null && <UseChip use={here.use} />}
      {here.use !== null && <UseBar use={here.use} worst={null} />}
      <Carried takeup={seen.takeups.find((one) => one.id === id)} />
    </div>
  );
}

/** Close it; the keyboard goes back to the place it was about. */
export function close(): void {
  const place = places.value.get(whyOf.value);
  whyOf.value = "";
  if (place !== undefined) queueMicrotask(() => focusOn(place));
}

function WhyTable({ table }: { table: Table }) {
  return (
    <section>
      <h3>{table.title}</h3>
      {table.about !== "" && <p class="quiet small">{table.about}</p>}
      {isStacked(table) ? <StackedTable table={table} /> : <PlainTable table={table} />}
    </section>
  );
}

function PlainTable({ table }: { table: Table }) {
  return (
    <div class="scroller" role="region" aria-label={table.title} tabIndex={0}>
      <table class="table">
        <thead>
          <tr>
            {table.head.map((words, i) => (
              <th key={i} scope="col" class={kind(table.rows[0]?.[i])}>
                {words}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row, i) => (
            <tr key={i}>
              {row.map((cell, j) => (j === 0 ? <FirstCell key={j} cell={cell} /> : <OtherCell key={j} cell={cell} />))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function FirstCell({ cell }: { cell: Cell }) {
  return (
    <th scope="row">
      <Said cell={cell} />
    </th>
  );
}

function OtherCell({ cell }: { cell: Cell }) {
  return (
    <td class={kind(cell)}>
      <Said cell={cell} />
    </td>
  );
}

function Said({ cell }: { cell: Cell }) {
  return cell.use === null ? <>{cell.text}</> : <UseChip use={cell.use} text={cell.text} />;
}

/** Numbers stand right, words left. */
function kind(cell: Cell | undefined): string {
  if (cell === undefined) return "";
  return cell.use !== null || /^[-+−±]?[\d., ]+(\s?\S{0,6})?$/.test(cell.text) ? "number end" : "";
}
