import { describe, expect, it } from "vitest";
import { Latest } from "./latest";

/** Answers that come when the test says so. */
function held() {
  const open: { wish: string; number: number; done: (answer: string) => void; fail: (reason: Error) => void }[] = [];
  const shown: string[] = [];
  const failed: string[] = [];
  const latest = new Latest<string, string>(
    (wish, number) => new Promise((done, fail) => open.push({ wish, number, done, fail })),
    (answer) => shown.push(answer),
    (_reason, wish) => failed.push(wish),
  );
  return { open, shown, failed, latest };
}

const turn = () => new Promise((done) => setTimeout(done, 0));

describe("latest value wins, one request in flight", () => {
  it("asks the first and the last of many wishes, and nothing between them", async () => {
    const { open, shown, latest } = held();
    for (const wish of ["a", "b", "c", "d"]) latest.want(wish);
    expect(open.map((one) => one.wish)).toEqual(["a"]);
    open[0]!.done("A");
    await turn();
    expect(open.map((one) => one.wish)).toEqual(["a", "d"]);
    open[1]!.done("D");
    await turn();
    expect(shown).toEqual(["A", "D"]);
    expect(latest.open).toBe(false);
  });

  it("goes on with what waits after a failure", async () => {
    const { open, shown, failed, latest } = held();
    latest.want("a");
    latest.want("b");
    open[0]!.fail(new Error("gone"));
    await turn();
    open[1]!.done("B");
    await turn();
    expect(failed).toEqual(["a"]);
    expect(shown).toEqual(["B"]);
  });

  it("does not show what was dropped, but what is wished afterwards", async () => {
    const { open, shown, latest } = held();
    latest.want("old");
    latest.drop();
    latest.want("new");
    open[0]!.done("OLD");
    await turn();
    open[1]!.done("NEW");
    await turn();
    expect(shown).toEqual(["NEW"]);
  });

  it("asks again after telling of a failure failed", async () => {
    const asked: string[] = [];
    const latest = new Latest<string, string>(
      (wish) => {
        asked.push(wish);
        return wish === "bad" ? Promise.reject(new Error("gone")) : Promise.resolve(wish);
      },
      () => undefined,
      () => undefined,
    );
    latest.want("bad");
    await turn();
    latest.want("good");
    await turn();
    expect(asked).toEqual(["bad", "good"]);
    expect(latest.open).toBe(false);
  });

  it("numbers what it asks upwards", async () => {
    const { open, latest } = held();
    latest.want("a");
    open[0]!.done("A");
    await turn();
    latest.want("b");
    expect(open.map((one) => one.number)).toEqual([1, 2]);
  });
});
