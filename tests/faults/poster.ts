import { z } from 'zod';

const answersSchema = z.object({ answers: z.array(z.object({ eventId: z.string(), state: z.string() })) });

/** A probe: posts one reading after another under its own names, each again until it is answered for. */
export class Poster {
  /** Event ids that the server gave for the names it acknowledged. */
  readonly acknowledged = new Map<string, string>();
  readonly wrong: string[] = [];
  readonly #batchId: string;
  #next = 0;
  /** When the present reading was read: sent again, it is the same to the letter. */
  #at = Date.now();

  constructor(batchId: string) {
    this.#batchId = batchId;
  }

  async postUntil(url: string, isOver: () => boolean): Promise<void> {
    while (!isOver()) {
      await this.#post(url);
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
  }

  async #post(url: string): Promise<void> {
    const id = `reading-${this.#next}`;
    const body = JSON.stringify({ id, quantity: 'temperatureC', value: 32 + (this.#next % 10) / 10, at: this.#at });
    let answer: { readonly status: number; readonly text: string };
    try {
      const headers = { 'content-type': 'application/json' };
      const response = await fetch(`${url}/api/batches/${this.#batchId}/readings`, { method: 'POST', headers, body });
      answer = { status: response.status, text: await response.text() };
    } catch {
      return;
    }
    if (answer.status !== 200) {
      this.wrong.push(`a reading was answered with ${answer.status}: ${answer.text.slice(0, 200)}`);
      this.#step();
      return;
    }
    for (const { eventId } of answersSchema.parse(JSON.parse(answer.text)).answers) this.acknowledged.set(id, eventId);
    this.#step();
  }

  #step(): void {
    this.#next++;
    this.#at = Date.now();
  }
}
