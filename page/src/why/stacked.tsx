// Rows with more words than a narrow panel has room for, each set below the other.     (why/stacked.tsx)
import type { Cell, Table } from "../interface";
import { UseChip } from "../use";

/** A row as it is stacked: its name, how full it is, its numbers, and what it is based on. */
export interface Stacked {
  name: string;
  full: Cell | null;
  /** State, or formula. */
  under: string;
  numbers: { name: string; text: string }[];
  source: string;
}

const SOURCE = "because";
const UNDER = ["state", "by hand"];

/** Whether a table's rows are stacked: those that give reasons in words are. */
export function isStacked(table: Table): boolean {
  return table.head.includes(SOURCE);
}

export function stacked(head: readonly string[], row: readonly Cell[]): Stacked {
  const found: Stacked = { name: row[0]?.text ?? "", full: null, under: "", numbers: [], source: "" };
  row.slice(1).forEach((cell, i) => {
    const name = head[i + 1] ?? "";
    if (cell.text === "") return;
    if (name === SOURCE) found.source = cell.text;
    else if (UNDER.includes(name)) found.under = cell.text;
    else if (name === "use") found.full = cell;
    else if (!(name === "outcome" && found.full?.text === cell.text)) found.numbers.push({ name, text: cell.text });
  });
  return found;
}

export function StackedTable({ table }: { table: Table }) {
  return (
    <ul class="stack" aria-label={table.title}>
      {table.rows.map((row, i) => (
        <Row key={i} row={stacked(table.head, row)} />
      ))}
    </ul>
  );
}

function Row({ row: { name, full, under, numbers, source } }: { row: Stacked }) {
  return (
    <li>
      <p class="stack-head">
        <strong>{name}</strong>
        {full !== null && (full.use === null ? <span>{full.text}</span> : <UseChip use={full.use} text={full.text} />)}
      </p>
      {under !== "" && <p class="small">{under}</p>}
      {numbers.length > 0 && (
        <p class="stack-numbers small">
          {numbers.map((one) => (
            <span key={one.name}>
              <span class="quiet">{one.name}</span> <span class="number">{one.text}</span>
            </span>
          ))}
        </p>
      )}
      {source !== "" && <p class="quiet small">{source}</p>}
    </li>
  );
}
