import type { Page } from 'playwright-core';

/** One event of a Chromium trace; times in microseconds. */
export interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly ts: number;
  readonly dur?: number;
  /** Of `dur`, what the thread itself worked: the rest went to other programs. */
  readonly tdur?: number;
  readonly tid: number;
  readonly pid: number;
  readonly args: { readonly data?: { readonly message?: string }; readonly name?: string };
}

/** Runs something while the browser writes down what its threads do. */
export async function traced(page: Page, run: () => Promise<void>): Promise<readonly TraceEvent[]> {
  const session = await page.context().newCDPSession(page);
  const events: TraceEvent[] = [];
  session.on('Tracing.dataCollected', ({ value }) => {
    for (const event of value) events.push(event as unknown as TraceEvent);
  });
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['toplevel', 'devtools.timeline', 'disabled-by-default-devtools.timeline', '__metadata'] }, // prettier-ignore
  });
  await run();
  const complete = new Promise((done) => session.once('Tracing.tracingComplete', done));
  await session.send('Tracing.end');
  await complete;
  return events;
}

const BAND = 'a new band';

/** Has the page mark in its trace each answer of a worker that brings a forecast, as it comes in. Before the page is opened. */
export async function markBands(page: Page): Promise<void> {
  await page.addInitScript((mark) => {
    const Plain = Worker;
    window.Worker = class extends Plain {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        this.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
          if (typeof data !== 'object' || data === null || !('forecast' in data)) return;
          console.timeStamp(mark);
          Reflect.set(window, mark, Number(Reflect.get(window, mark) ?? 0) + 1);
        });
      }
    };
  }, BAND);
}

/** How many have come in since the page was opened. */
export const countBands = (page: Page): Promise<number> =>
  page.evaluate((mark) => Number(Reflect.get(window, mark) ?? 0), BAND);

/** What one new band cost the page's own thread [ms]: its work, and the time from the answer's task to the end of the last. */
export interface BandUpdate {
  readonly workMs: number;
  readonly wallMs: number;
}

/** An answer and what it causes lie within this time; what comes later is another matter. */
const WINDOW_US = 120_000;

/**
 * What the page's own thread did for each new band: the task in which the answer came in, and every one after it within the
 * window, drawing, layout, paint and keeping among them, whoever asked for it.
 */
export function readTrace(events: readonly TraceEvent[]): readonly BandUpdate[] {
  const marks = events.filter(({ name, args }) => name === 'TimeStamp' && args.data?.message === BAND).sort((a, b) => a.ts - b.ts); // prettier-ignore
  const [first] = marks;
  // A page has one thread of its own, and the marks are on it.
  const tasks = events.filter(({ name, ph, tid, pid }) => name === 'RunTask' && ph === 'X' && tid === first?.tid && pid === first.pid); // prettier-ignore
  return marks.map(({ ts: from }, index) => {
    const until = Math.min(from + WINDOW_US, marks[index + 1]?.ts ?? Infinity);
    const within = tasks.filter(({ ts, dur = 0 }) => ts + dur > from && ts < until);
    const sum = (of: (task: TraceEvent) => number): number => within.reduce((all, task) => all + of(task), 0) / 1000;
    return { workMs: sum(({ tdur = Infinity }) => tdur), wallMs: sum(({ dur = 0 }) => dur) };
  });
}
