import { describe, expect, it } from "vitest";
import { contentOf, pieceOf } from "./svg";

describe("the server's drawings", () => {
  it("come without their own title, and never with scripts", () => {
    const svg = '<svg xmlns="http://www.w3.org/2000/svg"><title>t</title><script>1</script><g><title>J1</title></g></svg>';
    const group = contentOf(svg).firstElementChild;
    expect([...(group?.children ?? [])].map((one) => one.localName)).toEqual(["g"]);
    expect(group?.querySelector("g > title")?.textContent).toBe("J1");
  });
  it("may be a piece, or nothing", () => {
    expect(pieceOf('<circle r="1"/><path d="M0,0"/>').firstElementChild?.childElementCount).toBe(2);
    expect(pieceOf("").firstElementChild?.childElementCount).toBe(0);
  });
});
