// Proposals beside each other, with reasons; one of them is taken over.     (proposals/proposals.tsx)
import "./proposals.css";
import { useEffect } from "preact/hooks";
import type { ArrangeAsked, ProposalRow, Proposals as Found, RefusedConcept } from "../interface";
import { Drawing } from "../scenes/drawing";
import { Dialog } from "../shell/asking";
import { asked, doubted, follow, found, isOfNow, MOST, start, stop, take, taking } from "./found";

export function Proposals() {
  useEffect(follow, []);
  const now = found.value;
  return (
    <div class="proposals">
      <Asking running={now?.job === "running"} />
      {now !== null && <Progress now={now} />}
      {(now === null || now.rows.length === 0) && now?.job !== "running" && <Needed />}
      {now !== null && now.rows.length > 0 && (
        <>
          <Cards now={now} />
          <Comparison rows={now.rows} />
        </>
      )}
      {now !== null && now.refused.length > 0 && <Refused refused={now.refused} />}
      {doubted.value !== null && <Doubted row={doubted.value} />}
    </div>
  );
}

/** Another text stands there than the one that the proposal was pressed for: what is meant is asked. */
function Doubted({ row }: { row: ProposalRow }) {
  return (
    <Dialog title={`Take number ${row.number} over all the same?`}>
      <p>
        The text was changed since, and the proposal was found for the one before. Taken over it stands in the place of what was
        changed; undo brings that back.
      </p>
      <div class="buttons">
        <button type="button" class="button first" onClick={() => (doubted.value = null)}>
          Leave the text as it is
        </button>
        <button type="button" class="button" onClick={() => void take(row)}>
          Take it over
        </button>
      </div>
    </Dialog>
  );
}

const EXAMPLE = `    may_hold:                                # where an anchor may stand, and what is there to carry it
      - { at: first corner - 3 m, can_carry: { force: 25 kN } }
    takeups_from: [ demonstration series ]   # whose joints may be taken
    loop_room: [ { towards: south, depth: 6 m } ]
    keep_clear: [[ 60 m, 64 m ]]             # nothing may stand here`;

/** What a line has to say before there is anything to search among. */
function Needed() {
  return (
    <section class="needed" aria-labelledby="needed-title">
      <h3 id="needed-title">What the line says about it</h3>
      <p class="quiet">Nothing is proposed that the file does not allow. A line allows it with keys like these:</p>
      <pre class="sheet">{EXAMPLE}</pre>
    </section>
  );
}

const MEASURES: readonly { measure: ArrangeAsked["measure"]; title: string }[] = [
  { measure: "cost", title: "What costs least" },
  { measure: "anchor-load", title: "The least load on the most loaded anchor" },
  { measure: "joints", title: "The fewest joints" },
];

function Asking({ running }: { running: boolean }) {
  const { best, measure } = asked.value;
  return (
    <header class="asking">
      <h2>Proposals</h2>
      <p class="quiet">
        Complete arrangements of what the file allows: anchors, joints, loops, guides and rests. Each is proved by a study of
        its own.
      </p>
      <div class="asking-row">
        <label>
          First comes{" "}
          <select class="field" value={measure} disabled={running} onChange={(event) => measured(event.currentTarget.value)}>
            {MEASURES.map((one) => (
              <option key={one.measure} value={one.measure}>
                {one.title}
              </option>
            ))}
          </select>
        </label>
        <label>
          How many{" "}
          <input
            type="number"
            class="field number"
            min={1}
            max={MOST}
            value={best}
            disabled={running}
            onChange={(event) => counted(event.currentTarget.valueAsNumber)}
          />
        </label>
        {running ? (
          <button type="button" class="button first" onClick={() => void stop()}>
            Stop, and keep what is found
          </button>
        ) : (
          <button type="button" class="button first" onClick={() => void start()}>
            Search
          </button>
        )}
      </div>
    </header>
  );
}

function measured(value: string): void {
  const chosen = MEASURES.find((one) => one.measure === value);
  if (chosen !== undefined) asked.value = { ...asked.value, measure: chosen.measure };
}

function counted(best: number): void {
  if (Number.isInteger(best) && best >= 1 && best <= MOST) asked.value = { ...asked.value, best };
}

function Progress({ now }: { now: Found }) {
  const running = now.job === "running";
  return (
    <div class="progress-row">
      {running && <progress value={now.share} max={1} aria-label="How far the search is" />}
      {running && <p class="quiet">{now.words}</p>}
      <p role="status" class={running ? "unseen" : now.job === "failed" ? "strong" : "quiet"}>
        {running ? "The search runs." : now.words}
      </p>
      {now.job !== "none" && !isOfNow(now) && <p class="strong">These are of the file as it was before the last change.</p>}
    </div>
  );
}

function Cards({ now }: { now: Found }) {
  return (
    <ul class="cards">
      {now.rows.map((row) => (
        <Card key={row.number} row={row} fresh={isOfNow(now)} />
      ))}
    </ul>
  );
}

const FIRST_REASONS = 3;

function Card({ row, fresh }: { row: ProposalRow; fresh: boolean }) {
  const [stands, ...reasons] = row.reasons;
  const [some, more] = [reasons.slice(0, FIRST_REASONS), reasons.slice(FIRST_REASONS)];
  return (
    <li class="card sheet">
      <header>
        <span class="card-number">{row.number}</span>
        <h3>{row.title}</h3>
      </header>
      <Drawing svg={row.svg} label={`Proposal ${row.number}: ${stands ?? row.title}`} />
      <dl class="card-facts">
        <Fact name="Cost" value={row.cost} />
        <Fact name="Greatest anchor load" value={row.anchor_load} />
        <Fact name="Joints" value={String(row.joints)} />
        <Fact name="Its study" value={row.verdict} />
      </dl>
      <button type="button" class="button first" disabled={taking.value !== 0 || !fresh} onClick={() => void take(row)}>
        {taking.value === row.number ? "Being taken over …" : `Take number ${row.number} over`}
      </button>
      <Flow words={stands ?? ""} />
      <Reasons reasons={some} />
      {more.length > 0 && (
        <details>
          <summary>
            {more.length} more {more.length === 1 ? "reason" : "reasons"}
          </summary>
          <Reasons reasons={more} />
        </details>
      )}
    </li>
  );
}

/** A fact: its number large, then its unit; what is said of it stands below. */
function Fact({ name, value }: { name: string; value: string }) {
  const [number, unit, ...words] = value.split(" ");
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        <strong class="number">{number}</strong> {unit}
        {words.length > 0 && <span class="small quiet">{words.join(" ")}</span>}
      </dd>
    </div>
  );
}

/** What stands along the flow, one thing a line. */
function Flow({ words }: { words: string }) {
  return (
    <ol class="flow">
      {words.split(" | ").map((one, k) => (
        <li key={`${k} ${one}`}>{one}</li>
      ))}
    </ol>
  );
}

function Reasons({ reasons }: { reasons: readonly string[] }) {
  return (
    <ul class="reasons">
      {reasons.map((reason) => (
        <li key={reason}>{reason}</li>
      ))}
    </ul>
  );
}

function Comparison({ rows }: { rows: readonly ProposalRow[] }) {
  return (
    <section aria-labelledby="compared">
      <h3 id="compared">Beside each other</h3>
      <div class="scroller">
        <table class="table">
          <thead>
            <tr>
              <th scope="col">Number</th>
              <th scope="col">What takes up the growth</th>
              <th scope="col">Cost</th>
              <th scope="col">Greatest anchor load</th>
              <th scope="col">Joints</th>
              <th scope="col">Its study</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.number}>
                <th scope="row">{row.number}</th>
                <td>{row.title}</td>
                <td class="number">{row.cost}</td>
                <td>{row.anchor_load}</td>
                <td class="number">{row.joints}</td>
                <td>{row.verdict}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function Refused({ refused }: { refused: readonly RefusedConcept[] }) {
  return (
    <details class="refused">
      <summary>What was refused, and why ({refused.length})</summary>
      <div class="scroller">
        <table class="table">
          <thead>
            <tr>
              <th scope="col">Where</th>
              <th scope="col">What</th>
              <th scope="col">Its first failing check</th>
            </tr>
          </thead>
          <tbody>
            {refused.map((one, k) => (
              <tr key={`${k} ${one.concept}`}>
                <td>{one.where}</td>
                <td>{one.concept}</td>
                <td>{one.because}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
