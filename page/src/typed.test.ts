import { beforeEach, describe, expect, it } from "vitest";
import { arrive, keepMine, NOTHING_TYPED, ready, restore, send, store, takeTheirs, type, unsend } from "./typed";

const BASE = arrive(NOTHING_TYPED, "one\n");

describe("text that is typed and not yet taken", () => {
  it("is sent and taken", () => {
    const sent = send(type(BASE, "one two\n"));
    expect(ready(sent)).toBe(false);
    expect(arrive(sent, "one two\n")).toEqual({ base: "one two\n", mine: null, sent: null, theirs: null });
  });

  it("goes on where more was typed while it was under way", () => {
    const on = arrive(type(send(type(BASE, "a\n")), "ab\n"), "a\n");
    expect(on).toEqual({ base: "a\n", mine: "ab\n", sent: null, theirs: null });
    expect(ready(on)).toBe(true);
  });

  it("waits while the server is gone and is sent on the revision then current", () => {
    const lost = unsend(send(type(BASE, "mine\n")));
    expect(ready(arrive(lost, "one\n"))).toBe(true);
  });

  it("is never sent over a text that moved on meanwhile: a person chooses", () => {
    const both = arrive(unsend(send(type(BASE, "mine\n"))), "theirs\n");
    expect(both.theirs).toBe("theirs\n");
    expect(both.mine).toBe("mine\n");
    expect(ready(both)).toBe(false);
    expect(ready(keepMine(both))).toBe(true);
    expect(keepMine(both).base).toBe("theirs\n");
    expect(takeTheirs(both)).toEqual({ base: "theirs\n", mine: null, sent: null, theirs: null });
  });

  it("has no conflict where the other changed to the same, or back to what was typed upon", () => {
    const mine = type(BASE, "mine\n");
    expect(arrive(mine, "mine\n").mine).toBeNull();
    expect(arrive(arrive(mine, "theirs\n"), "one\n").theirs).toBeNull();
  });

  it("is nothing where it was typed back", () => {
    expect(type(type(BASE, "x\n"), "one\n").mine).toBeNull();
  });

  it("is still something where it was typed back after the first was sent", () => {
    expect(type(send(type(BASE, "x\n")), "one\n").mine).toBe("one\n");
  });
});

describe("text kept over a reload", () => {
  beforeEach(() => sessionStorage.clear());

  it("comes back for its own file only", () => {
    store(type(BASE, "mine\n"), "a.yaml", sessionStorage);
    expect(restore("b.yaml", sessionStorage)).toEqual(NOTHING_TYPED);
    expect(restore("a.yaml", sessionStorage)).toEqual({ base: "one\n", mine: "mine\n", sent: null, theirs: null });
  });

  it("is forgotten once it is taken", () => {
    store(type(BASE, "mine\n"), "a.yaml", sessionStorage);
    store(BASE, "a.yaml", sessionStorage);
    expect(restore("a.yaml", sessionStorage)).toEqual(NOTHING_TYPED);
  });
});
