// Sizes as they are written.     (papers/size.test.ts)
import { expect, it } from "vitest";
import { sizeText } from "./size";

it("writes a size with as many figures as matter", () => {
  expect([sizeText(2.26), sizeText(485.3), sizeText(1250)]).toEqual(["2.3 kB", "485 kB", "1.3 MB"]);
});
