import { describe, expect, it } from 'vitest';
import { readyBy, stackDots } from './dots.ts';
import { bandAt } from './band-at.ts';
import { clockTicks, layoutPlot } from './plot-layout.ts';

const gridMin = [0, 30, 60, 90, 120];
const falling = [6.6, 6.4, 6.1, 5.7, 5.4];
const wider = (by: number) => falling.map((pH, index) => pH + by * index);
const band = { p5: wider(-0.1), p25: wider(-0.04), p50: falling, p75: wider(0.04), p95: wider(0.1) };
const plot = (nowMin: number | null, given = band) =>
  layoutPlot({
    widthPx: 600,
    heightPx: 300,
    fromMin: 0,
    toMin: 120,
    low: 4.8,
    high: 6.8,
    nowMin,
    gridMin,
    band: given,
  });

describe('the plot of a forecast', () => {
  it('draws the band only ahead of now and the fit only behind it', () => {
    const layout = plot(60);
    expect(layout.median.startsWith(`M${layout.x(60)},`)).toBe(true);
    expect(layout.fitted.startsWith('M0,')).toBe(true);
    expect(layout.fitted).toContain(`${layout.x(60)},`);
    expect(layout.fitted).not.toContain(`${layout.x(90)},`);
  });

  it('lets fit and forecast meet on the now-line even between grid points', () => {
    const layout = plot(45);
    const meeting = '225,82.5';
    expect(layout.median).toContain(meeting);
    expect(layout.fitted).toContain(meeting);
  });

  it('stops the band where the sums end instead of bridging the gap', () => {
    const gone = (values: number[]) => values.map((value, index) => (index > 2 ? Number.NaN : value));
    const layout = plot(null, { p5: gone(band.p5), p25: gone(band.p25), p50: gone(band.p50), p75: gone(band.p75), p95: gone(band.p95) }); // prettier-ignore
    expect(layout.endsMin).toBe(60);
    expect(layout.most).not.toContain('NaN');
  });

  it('keeps bands inside the frame', () => {
    const layout = plot(null);
    expect(layout.y(9)).toBe(0);
    expect(layout.y(2)).toBe(300);
  });

  it('puts a lower pH lower', () => {
    const layout = plot(null);
    expect(layout.y(5.2)).toBeGreaterThan(layout.y(6.4));
  });

  it('reads the band between two grid points and nowhere beyond them', () => {
    expect(bandAt({ gridMin, band, atMin: 45 })?.p50).toBeCloseTo(6.25, 10);
    expect(bandAt({ gridMin, band, atMin: 121 })).toBeNull();
    expect(bandAt({ gridMin, band, atMin: -1 })).toBeNull();
  });

  it('labels the axis on round local times', () => {
    const nine = Date.UTC(2026, 2, 4, 9, 5);
    const ticks = clockTicks({ fromAt: nine, toAt: nine + 6 * 3_600_000, utcOffsetMin: 330, most: 7 });
    expect(ticks.map((at) => (at / 60_000 + 330) % 60)).toEqual(ticks.map(() => 0));
  });
});

describe('twenty dots', () => {
  const dotsMin = [...Array.from({ length: 14 }, (_, index) => 100 + index * 2), 150, 160, 170, 180, 200, Infinity];

  it('are counted, those that never come included', () => {
    expect(readyBy({ dotsMin, byMin: 130 })).toEqual({ ready: 14, of: 20 });
    expect(readyBy({ dotsMin, byMin: 9999 })).toEqual({ ready: 19, of: 20 });
  });

  it('stand on each other where they would overlap', () => {
    const dots = stackDots({ dotsMin, xOf: (minutes) => minutes, diameterPx: 14, mostRows: 6 });
    expect(dots).toHaveLength(19);
    expect(new Set(dots.map((dot) => `${dot.x}/${dot.row}`)).size).toBe(19);
    expect(Math.max(...dots.map((dot) => dot.row))).toBeGreaterThan(3);
  });

  it('can still be counted when all fall on the same minute', () => {
    const dots = stackDots({ dotsMin: Array.from({ length: 20 }, () => 100), xOf: (minutes) => minutes, diameterPx: 14, mostRows: 6 }); // prettier-ignore
    expect(Math.max(...dots.map((dot) => dot.row))).toBe(5);
    expect(new Set(dots.map((dot) => `${dot.x}/${dot.row}`)).size).toBe(20);
  });
});
