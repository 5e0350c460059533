import { describe, expect, it } from 'vitest';
import { keptStream } from '../../tests/kept-streams.ts';
import { InputError } from '../numbers/validity.ts';
import { foldPiece, withAncestors } from './piece-record.ts';

const care = { stays: [{ every: { turn: 1 } }], tasteDays: [60], source: 'common practice (no source)' };
const made = { name: 'Wheel 1', cheese: 'washed curd', madeOn: '2026-03-01', massKg: 2, rind: 'bare', care, place: 'place:cave', shelf: 3 }; // prettier-ignore
const wheel = (lines: readonly (readonly [string, string, (object | number)?])[]) => foldPiece(keptStream('piece:one', [['2026-03-01', 'pieceMade', made], ...lines])); // prettier-ignore

describe('a wheel on its shelf', () => {
  it('is known by its place, its weights and what was done to it', () => {
    const piece = wheel([['2026-03-02', 'pieceTurned'], ['2026-03-08', 'pieceWeighed', { massKg: 1.93 }]]); // prettier-ignore
    expect(piece).toMatchObject({ pieceId: 'piece:one', placeId: 'place:cave', shelf: 3, rind: 'bare', goneAt: null });
    expect(piece.weighings.map(({ massKg }) => massKg)).toEqual([2, 1.93]);
    expect(piece.done.map(({ job }) => job)).toEqual(['turn', 'look', 'weigh']);
  });

  it('is the same in any order of its events, and told twice', () => {
    const events = keptStream('piece:one', [['2026-03-01', 'pieceMade', made], ['2026-03-02', 'pieceTurned'], ['2026-03-03', 'pieceMoved', { place: 'place:fridge' }]]); // prettier-ignore
    expect(foldPiece([...events].reverse().concat(events))).toEqual(foldPiece(events));
  });

  it('keeps its name through wax, a bag and another room', () => {
    const piece = wheel([
      ['2026-03-20', 'pieceWaxed', { coat: 'wax' }],
      ['2026-05-01', 'pieceMoved', { place: 'place:fridge', shelf: 1 }],
      ['2026-06-01', 'piecePacked', { how: 'vacuum' }],
    ]);
    expect(piece).toMatchObject({ rind: 'vacuum', placeId: 'place:fridge', shelf: 1 });
    expect(piece.made?.name).toBe('Wheel 1');
  });

  it('does not take another shelf of the same cave for a move that its care asks for', () => {
    const piece = wheel([['2026-03-05', 'pieceMoved', { place: 'place:cave', shelf: 9 }], ['2026-03-06', 'pieceMoved', { place: 'place:fridge' }]]); // prettier-ignore
    expect(piece.done.filter(({ job }) => job === 'move')).toHaveLength(1);
  });

  it('has two heirs when it is halved, and each was turned when the whole was', () => {
    const whole = wheel([
      ['2026-03-02', 'pieceTurned'],
      ['2026-04-01', 'pieceSplit', { into: [{ piece: 'piece:left', massKg: 0.9 }, { piece: 'piece:right', massKg: 0.92 }] }],
      ['2026-04-02', 'pieceTurned'],
    ]); // prettier-ignore
    expect(whole.goneAt).toBe(Date.parse('2026-04-01T09:00:00Z'));
    const left = foldPiece(keptStream('piece:left', [['2026-04-01', 'pieceMade', { ...made, name: 'Wheel 1, left', from: 'piece:one', massKg: 0.9 }], ['2026-04-03', 'pieceTurned']])); // prettier-ignore
    const heir = withAncestors(left, new Map([[whole.pieceId, whole]]));
    expect(heir.done.filter(({ job }) => job === 'turn').map(({ at }) => new Date(at).toISOString().slice(0, 10))).toEqual(['2026-03-02', '2026-04-03']); // prettier-ignore
    expect(heir.moves.map(({ place }) => place)).toEqual(['place:cave', 'place:cave']);
    expect(heir.weighings.map(({ massKg }) => massKg)).toEqual([0.9]);
  });

  it('forgets a turn that was taken back, and refuses a turn noted in a batch', () => {
    expect(
      wheel([
        ['2026-03-02', 'pieceTurned'],
        ['2026-03-02', 'retracted', 1],
      ]).done,
    ).toEqual([]);
    expect(() => keptStream('batch:ash', [['2026-03-02', 'pieceTurned']])).toThrow(InputError);
    expect(() => keptStream('piece:one', [['2026-03-02', 'pieceWeighed', { massKg: 0 }]])).toThrow(InputError);
  });
});
