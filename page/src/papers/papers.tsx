// Papers: which, in which units and language; made, opened, taken along.     (papers/papers.tsx)
import "./papers.css";
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { ask } from "../client";
import type { PaperFile, PaperKind, Papers as Made, PapersAsked } from "../interface";
import { onNews, opened, tried } from "../store";
import { sizeText } from "./size";

const made = signal<Made | null>(null);
/** Kinds that are not wanted; so a new kind is wanted until somebody says otherwise. */
const without = signal<ReadonlySet<string>>(new Set());
const units = signal<PapersAsked["units"]>("si");
const language = signal<PapersAsked["language"]>("en");

async function fetchPapers(): Promise<void> {
  made.value = (await tried(() => ask<Made>("/api/papers"))) ?? made.value;
}

async function make(only: string[]): Promise<void> {
  const asked: PapersAsked = { only, units: units.value, language: language.value };
  made.value = (await tried(() => ask<Made>("/api/papers", asked))) ?? made.value;
}

function follow(): () => void {
  void fetchPapers();
  return onNews("papers", () => void fetchPapers());
}

export function Papers() {
  useEffect(follow, []);
  const now = made.value;
  if (now === null) return <p class="pad quiet">One moment …</p>;
  return (
    <div class="papers">
      <header>
        <h2>Papers</h2>
        <p class="quiet">
          What is handed over to others: all of it from one study of the file as it stands here, saved or not.
        </p>
      </header>
      <Wanted now={now} />
      <Files now={now} />
    </div>
  );
}

function Wanted({ now }: { now: Made }) {
  const running = now.job === "running";
  const only = now.kinds.map((kind) => kind.key).filter((key) => !without.value.has(key));
  const submit = (event: Event) => {
    event.preventDefault();
    void make(only);
  };
  return (
    <form class="wanted sheet" onSubmit={submit}>
      <fieldset class="kinds">
        <legend>Which</legend>
        {now.kinds.map((kind) => (
          <Kind key={kind.key} kind={kind} />
        ))}
      </fieldset>
      <div class="how">
        <label>
          Units{" "}
          <select class="field" value={units.value} onChange={(event) => (units.value = event.currentTarget.value === "us" ? "us" : "si")}>
            <option value="si">SI</option>
            <option value="us">US customary</option>
          </select>
        </label>
        <label>
          Language{" "}
          <select
            class="field"
            value={language.value}
            onChange={(event) => (language.value = event.currentTarget.value === "de" ? "de" : "en")}
          >
            <option value="en">English</option>
            <option value="de">Deutsch</option>
          </select>
        </label>
        <button type="submit" class="button first" disabled={running || only.length === 0}>
          {running ? "Being made …" : `Make ${only.length === 1 ? "1 paper" : `${only.length} papers`}`}
        </button>
      </div>
    </form>
  );
}

function Kind({ kind }: { kind: PaperKind }) {
  const wanted = !without.value.has(kind.key);
  const turn = () => {
    const next = new Set(without.value);
    if (wanted) next.add(kind.key);
    else next.delete(kind.key);
    without.value = next;
  };
  return (
    <label class="kind">
      <input type="checkbox" checked={wanted} onChange={turn} />
      <span>
        <strong>{kind.title}</strong>
        <span class="quiet small">{kind.about}</span>
      </span>
    </label>
  );
}

function Files({ now }: { now: Made }) {
  const old = now.job !== "none" && now.revision !== (opened.value?.revision ?? now.revision);
  return (
    <section class="files" aria-labelledby="files-title">
      <h3 id="files-title">Files</h3>
      {now.job === "running" && <progress aria-label="The papers are being made" />}
      <p role="status" class={now.job === "failed" ? "strong" : "quiet"}>
        {now.words || "Nothing was made yet."}
      </p>
      {old && <p class="strong">They are of the file as it was before the last change.</p>}
      {now.files.length > 0 && <List files={now.files} />}
    </section>
  );
}

function List({ files }: { files: readonly PaperFile[] }) {
  return (
    <table class="table">
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">File</th>
          <th scope="col">Size</th>
          <th scope="col">
            <span class="unseen">Open or take along</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {files.map((file) => (
          <tr key={file.name}>
            <th scope="row">{file.title}</th>
            <td>{file.name}</td>
            <td class="number">{sizeText(file.size_kb)}</td>
            <td class="file-links">
              <a href={file.address} target="_blank" rel="noopener" aria-label={`Open ${file.name} in a window of its own`}>
                Open
              </a>
              <a href={file.address} download={file.name} aria-label={`Download ${file.name}`}>
                Download
              </a>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
