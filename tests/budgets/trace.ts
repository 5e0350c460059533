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
const YARDSTICK = 'a yardstick';
/** What comes later than this after its answer is another matter; the yardstick is laid on right then. */
const WINDOW_MS = 120;

/**
 * Has the page mark in its trace each answer of a worker that brings a forecast, as it comes in, and lay a yardstick beside it
 * once what the answer causes is over: the same table look-ups every time, to tell how quick the processor was just then.
 * Before the page is opened.
 */
export async function markBands(page: Page): Promise<void> {
  await page.addInitScript(
    ({ band, yardstick, windowMs }) => {
      const Plain = Worker;
      const table = Uint32Array.from({ length: 1 << 16 }, (_, i) => (i * 40503) & 0xffff);
      const measure = (): void => {
        console.timeStamp(yardstick);
        let at = 1;
        for (let i = 0; i < 400_000; i++) at = (table[at] ?? 0) ^ (i & 0xff);
        Reflect.set(window, yardstick, at);
      };
      window.Worker = class extends Plain {
        constructor(url: string | URL, options?: WorkerOptions) {
          super(url, options);
          this.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
            if (typeof data !== 'object' || data === null || !('forecast' in data)) return;
            console.timeStamp(band);
            Reflect.set(window, band, Number(Reflect.get(window, band) ?? 0) + 1);
            setTimeout(measure, windowMs);
          });
        }
      };
    },
    { band: BAND, yardstick: YARDSTICK, windowMs: WINDOW_MS + 10 },
  );
}

/** How many have come in since the page was opened. */
export const countBands = (page: Page): Promise<number> =>
  page.evaluate((mark) => Number(Reflect.get(window, mark) ?? 0), BAND);

/** What one new band cost the page's own thread [ms]: its work, the time from the answer's task to the end of the last, and the yardstick laid beside it. */
export interface BandUpdate {
  readonly workMs: number;
  readonly wallMs: number;
  readonly yardstickMs: number;
}

const sumMs = (tasks: readonly TraceEvent[], of: (task: TraceEvent) => number): number =>
  tasks.reduce((all, task) => all + of(task), 0) / 1000;
const worked = ({ tdur = Infinity }: TraceEvent): number => tdur;

/**
 * What the page's own thread did for each new band: the task in which the answer came in, and every one after it within the
 * window, drawing, layout, paint and keeping among them, whoever asked for it.
 */
export function readTrace(events: readonly TraceEvent[]): readonly BandUpdate[] {
  const marksOf = (message: string): TraceEvent[] => events.filter(({ name, args }) => name === 'TimeStamp' && args.data?.message === message).sort((a, b) => a.ts - b.ts); // prettier-ignore
  const marks = marksOf(BAND);
  const yardsticks = marksOf(YARDSTICK);
  const [first] = marks;
  // A page has one thread of its own, and the marks are on it.
  const tasks = events.filter(({ name, ph, tid, pid }) => name === 'RunTask' && ph === 'X' && tid === first?.tid && pid === first.pid); // prettier-ignore
  const has = ({ ts, dur = 0 }: TraceEvent, mark: TraceEvent): boolean => mark.ts >= ts && mark.ts <= ts + dur;
  const isYardstick = (task: TraceEvent): boolean => yardsticks.some((mark) => has(task, mark));
  return marks.map(({ ts: from }, index) => {
    const until = Math.min(from + 1000 * WINDOW_MS, marks[index + 1]?.ts ?? Infinity);
    const within = tasks.filter((task) => task.ts + (task.dur ?? 0) > from && task.ts < until && !isYardstick(task));
    const beside = yardsticks.find(({ ts }) => ts > from);
    return {
      workMs: sumMs(within, worked),
      wallMs: sumMs(within, ({ dur = 0 }) => dur),
      yardstickMs: sumMs(beside === undefined ? [] : tasks.filter((task) => has(task, beside)), worked),
    };
  });
}
