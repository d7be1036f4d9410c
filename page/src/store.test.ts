import { beforeEach, describe, expect, it, vi } from "vitest";
import type { ChangeAsked, Document, TakeAsked } from "./interface";

/** A server of one document, as far as the page's store needs one. */
class Server {
  document: Document = made(1, "one\n");
  asked: ChangeAsked[] = [];
  gone = false;

  answer = (address: string, request?: RequestInit): Promise<Response> => {
    if (this.gone) return Promise.reject(new TypeError("no answer"));
    if (address === "/api/change") return Promise.resolve(this.change(JSON.parse(String(request?.body))));
    if (address === "/api/proposals/take") return Promise.resolve(this.take(JSON.parse(String(request?.body))));
    if (address === "/api/document") return Promise.resolve(Response.json(this.document));
    return Promise.resolve(Response.json({ refused: "not here", document: null }, { status: 404 }));
  };

  private take(asked: TakeAsked): Response {
    if (asked.revision !== this.document.revision)
      return Response.json({ refused: "changed meanwhile", document: this.document }, { status: 409 });
    if (asked.key !== "key") return Response.json({ refused: "another one by now", document: this.document }, { status: 409 });
    this.document = made(this.document.revision + 1, "proposed\n");
    return Response.json(this.document);
  }

  private change(asked: ChangeAsked): Response {
    this.asked.push(asked);
    if (asked.revision !== this.document.revision)
      return Response.json({ refused: "changed meanwhile", document: this.document }, { status: 409 });
    this.document = made(this.document.revision + 1, asked.change.text ?? this.document.text);
    return Response.json(this.document);
  }
}

function made(revision: number, text: string): Document {
  return {
    revision,
    file: "a.yaml",
    project: "a",
    text,
    saved: true,
    undo: "",
    redo: "",
    outside: "same",
    recovered: "",
    readable: true,
    outline_revision: 0, // so that nothing but the document is asked for
    busy: "",
    faults: [],
    lines: [],
    states: [],
    palette: [],
  };
}

async function opened() {
  vi.resetModules();
  const server = new Server();
  vi.stubGlobal("fetch", server.answer);
  vi.stubGlobal("EventSource", class {
    close(): void {}
  });
  const store = await import("./store");
  store.start();
  await vi.waitFor(() => expect(store.opened.value?.revision).toBe(1));
  return { server, store };
}

describe("the document between page and server", () => {
  beforeEach(() => sessionStorage.clear());

  it("takes typed text shortly after the last letter, on the revision then current", async () => {
    const { server, store } = await opened();
    store.typeText("one t\n");
    store.typeText("one two\n");
    await vi.waitFor(() => expect(store.opened.value?.text).toBe("one two\n"));
    expect(server.asked).toEqual([{ revision: 1, change: { do: "text", text: "one two\n" } }]);
    expect(store.typed.value.mine).toBeNull();
  });

  it("sends what was typed before a change that is made with the hand", async () => {
    const { server, store } = await opened();
    store.typeText("typed\n");
    expect(await store.change({ do: "move", id: "L/J1", station_m: 3 })).toBe(true);
    expect(server.asked.map((one) => [one.revision, one.change.do])).toEqual([
      [1, "text"],
      [2, "move"],
    ]);
  });

  it("asks where another window changed the text meanwhile, and overwrites nothing", async () => {
    const { server, store } = await opened();
    store.typeText("mine\n");
    server.document = made(2, "theirs\n");
    await vi.waitFor(() => expect(store.typed.value.theirs).toBe("theirs\n"));
    expect(server.document.text).toBe("theirs\n");
    store.chooseText("mine");
    await vi.waitFor(() => expect(server.document.text).toBe("mine\n"));
    expect(server.asked.at(-1)?.revision).toBe(2);
  });

  it("sends typed text again by itself where the revision moved on but the text did not", async () => {
    const { server, store } = await opened();
    store.typeText("mine\n");
    server.document = made(5, "one\n");
    await vi.waitFor(() => expect(server.document.text).toBe("mine\n"), 3000);
    expect(server.asked.map((one) => one.revision)).toEqual([1, 5]);
  });

  it("keeps typed text while the server is gone, and sends it when it answers again", async () => {
    const { server, store } = await opened();
    server.gone = true;
    store.typeText("mine\n");
    await vi.waitFor(() => expect(store.link.value).toBe("away"), 3000);
    expect(sessionStorage.getItem("takeup.typed")).toContain("mine");
    server.gone = false;
    server.document = made(1, "one\n"); // started anew, its numbers begin again
    await vi.waitFor(() => expect(server.document.text).toBe("mine\n"), 4000);
    expect(store.link.value).toBe("here");
    expect(sessionStorage.getItem("takeup.typed")).toBeNull();
  });

  it("takes a proposal over the text that is shown, and asks where another stands there by now", async () => {
    const { server, store } = await opened();
    server.document = made(2, "theirs\n");
    expect(await store.takeOver(1, "key", 1)).toBe("moved");
    expect([server.document.text, store.opened.value?.text]).toEqual(["theirs\n", "theirs\n"]);
    expect(await store.takeOver(1, "key", 2)).toBe("done");
    expect(store.opened.value?.text).toBe("proposed\n");
    expect(await store.takeOver(1, "other", 3)).toBe("not");
    expect(store.notices.value.at(-1)?.words).toBe("another one by now");
  });

  it("asks before a proposal stands in the place of what was typed since", async () => {
    const { server, store } = await opened();
    store.typeText("typed\n");
    expect(await store.takeOver(1, "key", 1)).toBe("moved");
    expect(server.document.text).toBe("typed\n");
  });

  it("drops an answer that is older than what is shown", async () => {
    const { server, store } = await opened();
    await store.change({ do: "text", text: "new\n" });
    server.document = made(1, "old\n");
    await store.refreshDocument();
    expect(store.opened.value?.text).toBe("new\n");
  });
});
