// Asking the desk's server: JSON to the same origin, the cookie signs, and what can go wrong has a type.     (client.ts)
import type { Document, Refused } from "./interface";

/** No answer at all: the server is gone or has not come up yet. */
export class Offline extends Error {}

/** The server does not know this browser: it was started anew. */
export class NotSignedIn extends Error {}

/** The server answered and did not do it; the words say why. */
export class NotDone extends Error {
  constructor(
    readonly status: number,
    readonly refused: string,
    readonly document: Document | null,
  ) {
    super(refused);
  }
}

const WITHOUT_WORDS = "The desk's server met an error of its own. Nothing was changed.";

/** Ask an address: GET without a body, POST with one. */
export async function ask<T>(address: string, body?: object): Promise<T> {
  const response = await reach(address, body);
  if (response.status === 401 || response.status === 403) throw new NotSignedIn(address);
  if (!response.ok) throw await notDone(response);
  try {
    const answer: T = await response.json();
    return answer;
  } catch {
    throw new Offline(address); // broken off in the middle of the answer
  }
}

async function reach(address: string, body?: object): Promise<Response> {
  const asked: RequestInit = { credentials: "same-origin", cache: "no-store" };
  if (body !== undefined) {
    asked.method = "POST";
    asked.headers = { "Content-Type": "application/json", "X-Takeup": "1" };
    asked.body = JSON.stringify(body);
  }
  try {
    return await fetch(address, asked);
  } catch {
    throw new Offline(address);
  }
}

async function notDone(response: Response): Promise<NotDone> {
  try {
    const told: Partial<Refused> = await response.json();
    return new NotDone(response.status, told.refused ?? WITHOUT_WORDS, told.document ?? null);
  } catch {
    return new NotDone(response.status, WITHOUT_WORDS, null);
  }
}
