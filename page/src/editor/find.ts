// Where a place is named in the text.     (editor/find.ts)

/**
 * The position at which a place's own name is given: `name: it`, `start: it` or `to: it`; -1 where it is not.
 *
 * What a rule placed has no name in the text.
 */
export function findName(text: string, name: string): number {
  const word = name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  const found = new RegExp(`^(?!\\s*#).*?\\b(?:name|start|to):\\s*["']?(${word})["']?\\s*(?=[,}\\n#]|$)`, "m").exec(text);
  return found === null ? -1 : found.index + found[0].lastIndexOf(found[1] ?? "");
}

/** The position of a line and column, both counted from one; within the text wherever they point. */
export function positionOf(text: string, line: number, column: number): number {
  const lines = text.split("\n");
  const row = Math.min(Math.max(line, 1), lines.length);
  const before = lines.slice(0, row - 1).reduce((sum, one) => sum + one.length + 1, 0);
  return before + Math.min(Math.max(column - 1, 0), lines[row - 1]?.length ?? 0);
}

/** What a fault marks: the word at its place, or the rest of the line, at least one letter. */
export function rangeOf(text: string, line: number, column: number): { from: number; to: number } {
  const from = positionOf(text, line, column);
  const word = /^[^\s,:}\]#]+/.exec(text.slice(from))?.[0] ?? "";
  const to = Math.min(from + Math.max(word.length, 1), text.length);
  return { from: Math.min(from, to), to };
}
