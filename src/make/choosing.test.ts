import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../tests/makes.ts';
import { chooseMakes, type Choice, type ChoosingFacts, type DayLength } from './choosing.ts';
import { findMakes } from './find-make.ts';
import { makeFacts, type MakeFacts } from './make-facts.ts';

const ball = makeFacts(makeNamed('stretched-ball'));
const quick: MakeFacts = {
  ...ball,
  id: 'quick',
  name: 'Quick curd',
  difficulty: 2,
  ingredients: ['acid', 'rennet'],
  helpedByPH: [],
};
const wheel: MakeFacts = { ...ball, id: 'wheel', name: 'Aged wheel', difficulty: 4, agesDays: 90, burners: 1 };
const days: Readonly<Record<string, DayLength>> = {
  'stretched-ball': { likelyMin: 420, keptMin: 480 },
  quick: { likelyMin: 90, keptMin: 120 },
  wheel: { likelyMin: 380, keptMin: 400 },
};
const makes = [wheel, ball, quick].map((facts) => ({ facts, day: days[facts.id] ?? null }));
const kitchen: ChoosingFacts = {
  fill: 'milk',
  milkL: 10,
  species: 'cow',
  treatment: 'pasteurised',
  homogenised: false,
  freeMin: 300,
  burners: 1,
  hasPHMeter: false,
  potL: 12,
  skill: 'new',
  ageing: 'none',
  withinDays: null,
  inStore: null,
};
const ranked = (have: Partial<ChoosingFacts> = {}): Choice[] => chooseMakes({ makes, have: { ...kitchen, ...have } });
const named = (id: string, have: Partial<ChoosingFacts> = {}): Choice => {
  const found = ranked(have).find(({ facts }) => facts.id === id);
  if (found === undefined) throw new Error(`no ${id}`);
  return found;
};
const codes = (choice: Choice): string[] => choice.rulings.map(({ code }) => code);

describe('10 L of pasteurised milk, five hours, one burner, no pH meter, and new to it', () => {
  it('is for the quick curd: two hours, easy, one burner, no meter', () => {
    const [first] = ranked();
    expect(first?.facts.id).toBe('quick');
    expect(first?.fits).toBe(true);
    expect(first?.reasons.map(({ code }) => code)).toEqual(['time-left', 'own-milk', 'one-burner', 'no-meter', 'easy']);
    expect(first?.reasons[0]).toEqual({ code: 'time-left', minutes: 180 });
  });

  it('rules the cultured ball out by three hours, by name and number', () => {
    expect(named('stretched-ball').rulings).toEqual([{ code: 'too-long', moreMin: 180, takesMin: 480 }]);
  });

  it('has no place for a wheel that ages a season, and no hands for it yet', () => {
    expect(codes(named('wheel'))).toEqual(['ageing-place', 'too-long', 'skill']);
    expect(named('wheel', { ageing: 'box' }).rulings[0]).toEqual({ code: 'ageing-place', days: 90 });
    expect(codes(named('wheel', { ageing: 'room', freeMin: null, skill: 'some' }))).toEqual([]);
  });

  it('puts what is nearest to fitting before what is far from it', () => {
    expect(ranked().map(({ facts }) => facts.id)).toEqual(['quick', 'stretched-ball', 'wheel']);
  });
});

describe('the milk on the counter', () => {
  it('stops a rennet cheese where it is ultra-heated, and says what to make of it instead', () => {
    const [ruling] = named('stretched-ball', { treatment: 'uht', freeMin: null }).rulings;
    expect(ruling).toMatchObject({ code: 'milk-refused', when: 'uht' });
    expect(ruling?.code === 'milk-refused' ? ruling.instead : '').toContain('acid and heat');
  });

  it('only cautions where it is homogenised, and ranks such a make lower', () => {
    const choice = named('quick', { homogenised: true });
    expect(choice.fits).toBe(true);
    expect(choice.notes).toContainEqual(expect.objectContaining({ code: 'milk', when: 'homogenised' }));
    expect(choice.reasons.map(({ code }) => code)).not.toContain('own-milk');
  });

  it('of an animal that the make does not know is ruled out; of one it knows, cautioned', () => {
    const cowOnly: MakeFacts = { ...quick, milk: { ...quick.milk, species: ['cow'], deviations: [] } };
    const [choice] = chooseMakes({ makes: [{ facts: cowOnly, day: null }], have: { ...kitchen, species: 'goat' } });
    expect(choice?.rulings).toEqual([{ code: 'other-animal', species: ['cow'] }]);
    expect(named('quick', { species: 'goat' }).fits).toBe(true);
  });
});

describe('fresh whey', () => {
  const ricotta: MakeFacts = { ...quick, id: 'whey-curd', milk: { ...quick.milk, fill: 'whey' } };
  const of = (fill: 'milk' | 'whey', facts: MakeFacts): string[] =>
    chooseMakes({ makes: [{ facts, day: null }], have: { ...kitchen, fill } }).flatMap(codes);

  it('is asked for by a make of whey, and makes nothing else', () => {
    expect(of('milk', ricotta)).toEqual(['other-fill']);
    expect(of('whey', ricotta)).toEqual([]);
    expect(of('whey', quick)).toEqual(['other-fill']);
  });
});

describe('the kitchen', () => {
  it('without a meter cannot make what only a meter tells, but can what the hand tells too', () => {
    expect(ball.helpedByPH).toEqual(['Rest in the whey', 'Keep warm and turn']);
    expect(ball.onlyByPH).toEqual([]);
    const metered: MakeFacts = { ...quick, onlyByPH: ['Pull it'] };
    const [choice] = chooseMakes({ makes: [{ facts: metered, day: null }], have: kitchen });
    expect(choice?.rulings).toEqual([{ code: 'meter', step: 'Pull it' }]);
  });

  it('with a small pot makes less of it, and is told how much', () => {
    expect(named('quick', { potL: 8 }).notes).toContainEqual({ code: 'pot', litres: 0.93 * 8 });
  });

  it('is asked for what is not in store, and ranks what it can begin at once higher', () => {
    expect(named('quick', { inStore: new Set(['rennet']) }).notes).toContainEqual({ code: 'to-buy', what: ['acid'] });
    expect(named('quick', { inStore: new Set(['rennet', 'acid']) }).reasons.map(({ code }) => code)).toContain(
      'in-store',
    );
  });
});

describe('looking for a make by name', () => {
  const all = [ball, quick, wheel];
  it('finds it by another name, and says by which', () => {
    const [found] = findMakes({ makes: [ball], typed: 'Fior di Látte' });
    expect(found).toEqual({ facts: ball, alias: 'fior di latte' });
  });
  it('puts its own name before other names, and finds nothing where nothing is called so', () => {
    expect(findMakes({ makes: all, typed: 'quick' }).map(({ facts }) => facts.id)).toEqual(['quick']);
    expect(findMakes({ makes: all, typed: 'xyz' })).toEqual([]);
    expect(findMakes({ makes: all, typed: '  ' })).toHaveLength(3);
  });
});
