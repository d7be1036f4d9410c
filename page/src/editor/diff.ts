// The least change from one text to another, so that the cursor stays where it was.     (editor/diff.ts)

export interface Edit {
  from: number;
  to: number;
  insert: string;
}

/** What to put in place of what; null where the texts are the same. Line by line first, then letter by letter. */
export function leastEdits(before: string, after: string): Edit[] {
  if (before === after) return [];
  const [a, b] = [linesOf(before), linesOf(after)];
  const start = sameAtStart(a, b);
  const end = sameAtEnd(a, b, start);
  const from = length(a.slice(0, start));
  const [middleA, middleB] = [a.slice(start, a.length - end), b.slice(start, b.length - end)];
  if (middleA.length * middleB.length > MOST_CELLS) return [within(middleA.join(""), middleB.join(""), from)];
  return alignedEdits(middleA, middleB, from);
}

const MOST_CELLS = 4_000_000; // of the table of common lines; beyond it the middle is replaced as one piece

function linesOf(text: string): string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

function length(lines: readonly string[]): number {
  return lines.reduce((sum, line) => sum + line.length, 0);
}

function sameAtStart<T>(a: ArrayLike<T>, b: ArrayLike<T>): number {
  let count = 0;
  while (count < a.length && count < b.length && a[count] === b[count]) count++;
  return count;
}

function sameAtEnd<T>(a: ArrayLike<T>, b: ArrayLike<T>, start: number): number {
  let count = 0;
  while (count < a.length - start && count < b.length - start && a[a.length - 1 - count] === b[b.length - 1 - count])
    count++;
  return count;
}

/** A piece that differs, narrowed to the letters that do. */
function within(a: string, b: string, from: number): Edit {
  const start = sameAtStart(a, b);
  const end = sameAtEnd(a, b, start);
  return { from: from + start, to: from + a.length - end, insert: b.slice(start, b.length - end) };
}

/** Longest common lines; what lies between them is replaced. */
function alignedEdits(a: readonly string[], b: readonly string[], from: number): Edit[] {
  const common = commonTable(a, b);
  const edits: Edit[] = [];
  let [i, j, at] = [0, 0, from];
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      at += a[i]!.length;
      i++;
      j++;
      continue;
    }
    const [i0, j0] = [i, j];
    while ((i < a.length || j < b.length) && !(i < a.length && j < b.length && a[i] === b[j])) {
      if (j >= b.length || (i < a.length && common[i + 1]![j]! >= common[i]![j + 1]!)) i++;
      else j++;
    }
    const gone = a.slice(i0, i).join("");
    edits.push(within(gone, b.slice(j0, j).join(""), at));
    at += gone.length;
  }
  return edits;
}

function commonTable(a: readonly string[], b: readonly string[]): Uint32Array[] {
  const table = Array.from({ length: a.length + 1 }, () => new Uint32Array(b.length + 1));
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      table[i]![j] = a[i] === b[j] ? table[i + 1]![j + 1]! + 1 : Math.max(table[i + 1]![j]!, table[i]![j + 1]!);
  return table;
}

/** The edits carried out, from the last to the first; for tests, and for whoever has no editor. */
export function applied(before: string, edits: readonly Edit[]): string {
  return [...edits]
    .sort((a, b) => b.from - a.from)
    .reduce((text, edit) => text.slice(0, edit.from) + edit.insert + text.slice(edit.to), before);
}

export interface DiffLine {
  mark: " " | "-" | "+";
  text: string;
}

/** Two texts as one list of lines: of the first only "-", of the second only "+", and a few of both around them. */
export function compared(before: string, after: string, around = 2): DiffLine[] {
  const [a, b] = [before.split("\n"), after.split("\n")];
  const start = sameAtStart(a, b);
  const end = sameAtEnd(a, b, start);
  const kept = (text: string): DiffLine => ({ mark: " ", text });
  return [
    ...a.slice(Math.max(start - around, 0), start).map(kept),
    ...a.slice(start, a.length - end).map((text): DiffLine => ({ mark: "-", text })),
    ...b.slice(start, b.length - end).map((text): DiffLine => ({ mark: "+", text })),
    ...a.slice(a.length - end, a.length - end + around).map(kept),
  ];
}
