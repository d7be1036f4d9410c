// Latest value wins, one request in flight.     (latest.ts)

/**
 * Asks for the newest wish only: while one is under way, later wishes replace each other, and the last one follows.
 *
 * So a slider never builds up a queue, and an answer is never older than the one shown before it.
 */
export class Latest<Wish, Answer> {
  private waiting: { wish: Wish } | null = null;
  private busy = false;
  private number = 0;
  private shown = 0;

  constructor(
    private readonly ask: (wish: Wish, number: number) => Promise<Answer>,
    private readonly show: (answer: Answer, wish: Wish) => void,
    private readonly failed: (reason: unknown, wish: Wish) => void,
  ) {}

  /** Whether something is under way or waiting. */
  get open(): boolean {
    return this.busy || this.waiting !== null;
  }

  want(wish: Wish): void {
    this.waiting = { wish };
    if (!this.busy) void this.run();
  }

  /** Forget what waits, and do not show what is under way. */
  drop(): void {
    this.waiting = null;
    this.shown = this.number;
  }

  private async run(): Promise<void> {
    this.busy = true;
    try {
      for (let next = this.take(); next !== null; next = this.take()) await this.one(next.wish);
    } finally {
      this.busy = false; // also where telling of a failure failed, so that the next wish is asked
    }
  }

  private take(): { wish: Wish } | null {
    const next = this.waiting;
    this.waiting = null;
    return next;
  }

  private async one(wish: Wish): Promise<void> {
    const number = ++this.number;
    try {
      const answer = await this.ask(wish, number);
      if (number <= this.shown) return;
      this.shown = number;
      this.show(answer, wish);
    } catch (reason) {
      if (number > this.shown) this.failed(reason, wish);
    }
  }
}
