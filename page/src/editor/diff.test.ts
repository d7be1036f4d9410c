import { describe, expect, it } from "vitest";
import { applied, compared, leastEdits } from "./diff";

const TEXT = "a: 1\nb: 2\nc: 3\nd: 4\ne: 5\n";

describe("the least change", () => {
  it("is none between the same texts", () => {
    expect(leastEdits(TEXT, TEXT)).toEqual([]);
  });
  it("is the letters that differ", () => {
    expect(leastEdits(TEXT, TEXT.replace("c: 3", "c: 7"))).toEqual([{ from: 13, to: 14, insert: "7" }]);
  });
  it("leaves what lies between two changes alone, and with it the cursor", () => {
    const after = TEXT.replace("a: 1", "a: 10").replace("e: 5", "e: 50");
    const edits = leastEdits(TEXT, after);
    expect(edits).toEqual([
      { from: 4, to: 4, insert: "0" },
      { from: 24, to: 24, insert: "0" },
    ]);
    expect(applied(TEXT, edits)).toBe(after);
  });
  it("leads to the other text, whatever the two are", () => {
    let seed = 7;
    const next = (below: number) => (seed = (seed * 1103515245 + 12345) % 2147483648) % below;
    const text = () => Array.from({ length: next(9) }, () => `${"abc"[next(3)]}${next(2)}\n`).join("") + "z".repeat(next(2));
    for (let i = 0; i < 500; i++) {
      const [before, after] = [text(), text()];
      expect(applied(before, leastEdits(before, after))).toBe(after);
    }
  });
  it("replaces one piece where the texts are very long and wholly different", () => {
    const many = (word: string) => Array.from({ length: 3000 }, (_, i) => `${word}${i}\n`).join("");
    expect(leastEdits(many("x"), many("y"))).toHaveLength(1);
  });
});

describe("two texts beside each other", () => {
  it("shows what only one has, with two lines around", () => {
    expect(compared("1\n2\n3\n4\n5", "1\n2\n3\nX\n5", 1)).toEqual([
      { mark: " ", text: "3" },
      { mark: "-", text: "4" },
      { mark: "+", text: "X" },
      { mark: " ", text: "5" },
    ]);
  });
});
