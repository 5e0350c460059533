import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { keptStream } from '../../../tests/kept-streams.ts';
import { dayOf } from '../../record/day-number.ts';
import { keptThings } from '../../record/kept-things.ts';
import { openWords, sayFrom } from '../words.ts';
import { careFeed } from './care-feed.ts';

const words = JSON.parse(readFileSync('words/en-GB/ageing.json', 'utf8')) as object;
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': { ageing: words } } }));
const dayAt = (at: number): number => dayOf({ at, utcOffsetMin: 0 });
const care = { stays: [{ every: { turn: 2 } }], tasteDays: [10], source: 'common practice (no source)' };
const piece = (id: string, name: string) => [`piece:${id}`, keptStream(`piece:${id}`, [['2026-03-01', 'pieceMade', { name, cheese: 'c', madeOn: '2026-03-01', rind: 'bare', place: 'place:cave', care }]])] as const; // prettier-ignore
const cave = ['place:cave', keptStream('place:cave', [['2026-01-01', 'placeTold', { name: 'Cave; north', kind: 'cave' }]])] as const; // prettier-ignore
const away = ['day:away', keptStream('day:away', [['2026-03-01', 'awayPlanned', { from: '2026-03-06', to: '2026-03-08' }]])] as const; // prettier-ignore
const feed = (...streams: (readonly [string, ReturnType<typeof keptStream>])[]): string[] =>
  careFeed({ kept: keptThings(new Map(streams)), dayAt, now: Date.parse('2026-03-02T09:00:00Z'), say }).replaceAll('\r\n ', '').split('\r\n'); // prettier-ignore

describe('the calendar of the ageing room', () => {
  it('has one entry a day for all that lies there, with what is to be done', () => {
    const lines = feed(piece('a', 'Wheel A'), piece('b', 'Wheel B'), cave);
    const first = lines.indexOf('DTSTART;VALUE=DATE:20260303');
    expect(lines[first + 1]).toBe('SUMMARY:Ageing: turn 2');
    expect(lines[first + 2]).toBe('DESCRIPTION:turn: Wheel A (Cave\\; north)\\nturn: Wheel B (Cave\\; north)');
    expect(lines.filter((line) => line.startsWith('DTSTART')).length).toBeGreaterThan(40);
  });

  it('is a calendar as RFC 5545 has it: begun and ended in pairs, every day once, each with its stamp and bell', () => {
    const lines = feed(piece('a', 'Wheel A'), cave);
    const open: string[] = [];
    for (const line of lines) {
      if (line.startsWith('BEGIN:')) open.push(line.slice(6));
      if (line.startsWith('END:')) expect(open.pop()).toBe(line.slice(4));
    }
    expect(open).toEqual([]);
    const uids = lines.filter((line) => line.startsWith('UID:'));
    expect(new Set(uids).size).toBe(uids.length);
    for (const property of ['DTSTAMP:', 'DTSTART;', 'SUMMARY:', 'TRIGGER:']) expect(lines.filter((line) => line.startsWith(property))).toHaveLength(uids.length); // prettier-ignore
    expect(lines.every((line) => /^([A-Z-]+(;[A-Z]+=[A-Z]+)*:.*)?$/.test(line))).toBe(true);
  });

  it('moves what falls into days away, and leaves out what is invented or eaten', () => {
    const lines = feed(piece('a', 'Wheel A'), cave, away);
    expect(lines).not.toContain('DTSTART;VALUE=DATE:20260307');
    expect(lines).toContain('DTSTART;VALUE=DATE:20260309');
    expect(feed(piece('demo-a', 'Invented')).filter((line) => line.startsWith('UID'))).toEqual([]);
  });
});
