// The nine scenes: told, claimed, and played by hand.     (scenes/scenes.tsx)
import "./scenes.css";
import { useEffect, useState } from "preact/hooks";
import type { SceneClaim, SceneTold } from "../interface";
import { Drawing } from "./drawing";
import { Stage } from "./stage";
import { enter, fetchRows, open, rows, told } from "./told";

export function Scenes() {
  useEffect(() => void fetchRows(), []);
  const scene = told.value.get(open.value);
  return (
    <div class="scenes">
      <nav class="scene-list" aria-label="Scenes">
        <ol>
          {rows.value.map((row) => (
            <li key={row.name}>
              <button type="button" aria-current={row.name === open.value ? "true" : undefined} onClick={() => void enter(row.name)}>
                <span class="scene-number number">{row.number}</span>
                <span>{row.title}</span>
              </button>
            </li>
          ))}
        </ol>
      </nav>
      {scene === undefined ? <p class="pad quiet">The scene is being played …</p> : <Scene key={scene.name} scene={scene} />}
    </div>
  );
}

function Scene({ scene }: { scene: SceneTold }) {
  const [story, ...morals] = scene.lead;
  return (
    <article class="scene">
      <header>
        <h2>{scene.title}</h2>
        <p class="scene-lead">{story}</p>
      </header>
      <Stages scene={scene} />
      <section aria-labelledby="scene-steps">
        <h3 id="scene-steps">Step by step</h3>
        <ol class="scene-steps">
          {scene.steps.map((step) => (
            <li key={step.title} class="sheet">
              <h4>{step.title}</h4>
              <Drawing svg={step.svg} label={step.title} />
              <p>{step.words}</p>
            </li>
          ))}
        </ol>
        <details class="signs">
          <summary>What the signs mean</summary>
          <Drawing svg={scene.signs} label="What the signs mean" />
        </details>
      </section>
      {morals.map((moral) => (
        <p key={moral} class="moral">
          {moral}
        </p>
      ))}
      <Claims claims={scene.claims} />
      <section aria-labelledby="scene-left">
        <h3 id="scene-left">What it leaves out</h3>
        <ul class="left-out">
          {scene.leaves_out.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      </section>
    </article>
  );
}

/** The lines of a scene; where it has several, one is chosen. */
function Stages({ scene }: { scene: SceneTold }) {
  const [number, choose] = useState(0);
  const file = scene.files[number];
  if (file === undefined) return null;
  return (
    <section aria-labelledby="scene-stage">
      <h3 id="scene-stage" class={scene.files.length > 1 ? "" : "unseen"}>
        Push it yourself
      </h3>
      {scene.files.length > 1 && (
        <div class="scene-files" role="group" aria-label="Line">
          {scene.files.map((one, k) => (
            <button key={one.file} type="button" class="button" aria-pressed={k === number} onClick={() => choose(k)}>
              {one.title}
            </button>
          ))}
        </div>
      )}
      <Stage key={file.file} file={file} title={file.title} />
    </section>
  );
}

function Claims({ claims }: { claims: readonly SceneClaim[] }) {
  return (
    <section aria-labelledby="scene-claims">
      <h3 id="scene-claims">Claims, by the model and by hand</h3>
      <div class="scroller">
        <table class="table claims">
          <thead>
            <tr>
              <th scope="col">Claim</th>
              <th scope="col">Model</th>
              <th scope="col">By hand</th>
              <th scope="col">Formula and source</th>
              <th scope="col">They</th>
            </tr>
          </thead>
          <tbody>
            {claims.map((claim) => (
              <tr key={claim.text}>
                <th scope="row">{claim.text}</th>
                <td class="claim-number number">{claim.model}</td>
                <td class="claim-number number">{claim.hand}</td>
                <td>
                  <span class="formula">{claim.formula}</span>
                  <span class="quiet small">{claim.source}</span>
                </td>
                <td>{claim.agrees ? "agree" : <strong>do not agree</strong>}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
