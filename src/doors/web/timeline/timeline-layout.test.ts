import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layoutTimeline, type TimelineStep } from './timeline-layout.ts';

const MINUTE = 60_000;
const NINE_OH_FIVE = Date.UTC(2026, 2, 4, 9, 5);
const at = (minutes: number): number => NINE_OH_FIVE + minutes * MINUTE;

const step = (
  given: Partial<TimelineStep> & { id: string; start: number; end: number; spread?: number },
): TimelineStep => ({
  id: given.id,
  name: given.id,
  number: given.number ?? 1,
  state: given.state ?? 'coming',
  startAt: at(given.start),
  endAt: at(given.end),
  endEarlyAt: at(given.end - (given.spread ?? 0)),
  endLateAt: at(given.end + (given.spread ?? 0)),
  handsMin: given.handsMin ?? { start: 0, during: 0, end: 0 },
});

const lay = (steps: TimelineStep[], nowAt: number | null = null) =>
  layoutTimeline({ steps, nowAt, utcOffsetMin: 0, pxPerMin: 2, labelGapPx: 22 });

describe('the time line', () => {
  it('is graduated on round clock times, not on the minute the make began', () => {
    const marks = lay([step({ id: 'warm', start: 0, end: 70 })]).graduations;
    expect(marks.map((mark) => new Date(mark.at).getUTCMinutes() % 10)).toEqual(marks.map(() => 0));
    expect(marks.filter((mark) => mark.long).map((mark) => new Date(mark.at).getUTCMinutes() % 30)).toEqual([0, 0, 0]);
  });

  it('stands on the local clock where the zone is not a whole hour from UTC', () => {
    const marks = layoutTimeline({ steps: [step({ id: 'warm', start: 0, end: 60 })], nowAt: null, utcOffsetMin: 345, pxPerMin: 2, labelGapPx: 22 }).graduations; // prettier-ignore
    for (const mark of marks.filter((one) => one.long)) {
      expect((mark.at / MINUTE + 345) % 30).toBe(0);
    }
  });

  it('draws attention wide at both ends of a step and waiting between', () => {
    const { blocks } = lay([step({ id: 'set', start: 0, end: 60, handsMin: { start: 5, during: 0, end: 3 } })]);
    expect(blocks.map((block) => [block.kind, block.heightPx])).toEqual([['hands', 10], ['waiting', 104], ['hands', 6]]); // prettier-ignore
  });

  it('is ink behind the now-line, rim ahead of it in the running step, open after', () => {
    const steps = [
      step({ id: 'warm', start: 0, end: 20, state: 'done' }),
      step({ id: 'ripen', start: 20, end: 60, state: 'running' }),
      step({ id: 'set', start: 60, end: 100 }),
    ];
    const layout = lay(steps, at(30));
    expect(layout.blocks.map((block) => block.tone)).toEqual(['past', 'past', 'now', 'future']);
    expect(layout.nowPx).toBe(70); // 9:00 is the top, 9:35 is 35 min below it at 2 px
  });

  it('puts overlapping whiskers beside each other', () => {
    const { whiskers, lanes } = lay([step({ id: 'a', start: 0, end: 40, spread: 20 }), step({ id: 'b', start: 40, end: 50, spread: 20 }), step({ id: 'c', start: 50, end: 120, spread: 10 })]); // prettier-ignore
    expect(whiskers.map((whisker) => whisker.lane)).toEqual([0, 1, 0]);
    expect(lanes).toBe(2);
  });

  it('draws no whisker on what is past or certain to the minute', () => {
    expect(lay([step({ id: 'a', start: 0, end: 40, spread: 20, state: 'done' }), step({ id: 'b', start: 40, end: 50 })]).whiskers).toEqual([]); // prettier-ignore
  });

  it('does not run to infinity when an end may never come', () => {
    const open = { ...step({ id: 'rest', start: 0, end: 180 }), endLateAt: Infinity };
    expect(lay([open]).heightPx).toBeLessThan(500);
  });

  it('never writes two names over each other and keeps their order', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 16 }), (lengths) => {
        let from = 0;
        const steps = lengths.map((length, index) => {
          const one = step({ id: `s${index}`, start: from, end: from + length });
          from += length;
          return one;
        });
        const labels = lay(steps).labels;
        for (let i = 1; i < labels.length; i++) {
          expect((labels[i]?.yPx ?? 0) - (labels[i - 1]?.yPx ?? 0)).toBeGreaterThanOrEqual(22);
        }
      }),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('puts the same minute at the same height in lines that share a frame', () => {
    const frame = { fromAt: at(10), toAt: at(200) };
    const laid = [[step({ id: 'a', start: 0, end: 60 }), step({ id: 'b', start: 60, end: 90 })], [step({ id: 'b', start: 60, end: 120 })]].map((steps) => layoutTimeline({ steps, nowAt: at(30), utcOffsetMin: 0, pxPerMin: 2, labelGapPx: 0, frame })); // prettier-ignore
    const anchors = laid.map(({ labels }) => labels.find(({ stepId }) => stepId === 'b')?.anchorPx);
    expect(anchors[0]).toBe(anchors[1]);
    expect(laid[0]?.nowPx).toBe(laid[1]?.nowPx);
    expect(laid[0]?.graduations).toEqual(laid[1]?.graduations);
  });

  it('draws nothing for a make without steps', () => {
    expect(lay([]).heightPx).toBe(0);
  });
});
