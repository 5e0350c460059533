import type { Page } from 'playwright-core';

/** One event of a Chromium trace; times in microseconds. */
export interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly ts: number;
  readonly dur?: number;
  readonly tid: number;
  readonly pid: number;
  readonly args: { readonly data?: { readonly type?: string }; readonly name?: string };
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

/** A worker's answer and what it causes lie within this time; what comes later is another matter. */
const WINDOW_US = 120_000;

/**
 * What the page's own thread worked for each answer of a worker [ms]: its tasks from the answer on until it rests,
 * layout and paint among them.
 */
export function readTrace(events: readonly TraceEvent[]): readonly number[] {
  const main = busiestMain(events);
  const own = events.filter((event) => event.tid === main?.tid && event.pid === main.pid);
  const tasks = own.filter((event) => /RunTask/.test(event.name) && event.ph === 'X' && (event.dur ?? 0) > 0);
  const answers = own.filter((event) => event.name === 'EventDispatch' && event.args.data?.type === 'message').map(({ ts }) => ts).sort((a, b) => a - b); // prettier-ignore
  const starts = answers.filter((ts, index) => index === 0 || ts - (answers[index - 1] ?? 0) > WINDOW_US);
  return starts.map((from) => {
    const within = tasks.filter(({ ts, dur = 0 }) => ts + dur > from && ts < from + WINDOW_US);
    return within.reduce((sum, { dur = 0 }) => sum + dur, 0) / 1000;
  });
}

/** The page's own thread: a browser keeps spare renderers, and theirs are idle. */
function busiestMain(events: readonly TraceEvent[]): TraceEvent | undefined {
  const mains = events.filter((event) => event.name === 'thread_name' && event.args.name === 'CrRendererMain');
  const tasks = (main: TraceEvent): number =>
    events.filter((event) => event.tid === main.tid && event.pid === main.pid && /RunTask/.test(event.name)).length;
  return mains.map((main) => ({ main, count: tasks(main) })).sort((a, b) => b.count - a.count)[0]?.main;
}
