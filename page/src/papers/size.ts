// How large a file is, as it is written.     (papers/size.ts)
const THOUSAND = 1000;

/** A size in kB, or in MB where that is shorter. */
export function sizeText(size_kb: number): string {
  if (size_kb >= THOUSAND) return `${(size_kb / THOUSAND).toFixed(1)} MB`;
  return size_kb < 10 ? `${size_kb.toFixed(1)} kB` : `${size_kb.toFixed(0)} kB`;
}
