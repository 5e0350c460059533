import { describe, expect, it } from 'vitest';
import type { Problem } from '../numbers/validity.ts';
import { readAnswers } from './answers.ts';
import type { Answers } from './setup.ts';

const milk = { volumeL: 10 };
const problemsOf = (answers: Answers): readonly Problem[] => {
  const read = readAnswers(answers);
  return 'problems' in read ? read.problems : [];
};
const remedyOf = (answers: Answers): string | undefined => problemsOf(answers)[0]?.remedy;

describe('a room at 37', () => {
  const warm: Answers = { milk, room: { temperatureC: 37 } };

  it('is asked about, because 37 °F is a cold larder', () => {
    expect(problemsOf(warm)).toMatchObject([{ field: 'room.temperatureC', value: 37 }]);
    expect(remedyOf(warm)).toBe('If you meant 37 °F, that is 2.8 °C. If 37 is right, confirm it.');
  });

  it('is believed when confirmed, and an ordinary one is not asked about', () => {
    expect(problemsOf({ ...warm, confirmed: ['room.temperatureC'] })).toEqual([]);
    for (const temperatureC of [12, 20, 34]) expect(problemsOf({ milk, room: { temperatureC } })).toEqual([]);
  });

  it('is not taken for Fahrenheit of a maker who types Fahrenheit', () => {
    expect(remedyOf({ ...warm, units: 'us' })).toBe('Check the number and its unit. If it is right, confirm it.');
    expect(remedyOf({ milk, room: { temperatureC: 68 }, units: 'us' })).toBe('Check the number and its unit.');
    expect(remedyOf({ milk, room: { temperatureC: 68 } })).toBe('If you meant 68 °F, that is 20 °C.');
  });
});

describe('fat of 80 %', () => {
  const fat = (fatPercent: number, species?: Answers['milk']['species']): string | undefined =>
    remedyOf({ milk: { ...milk, fatPercent, ...(species === undefined ? {} : { species }) } });

  it('is a slipped point for buffalo and ewe, whose milk has 8', () => {
    expect(fat(80, 'buffalo')).toBe('Did you mean 8 %?');
    expect(fat(80, 'sheep')).toBe('Did you mean 8 %?');
  });

  it('is nothing a cow or goat gives, so the range is named instead', () => {
    const cow = "Cow's milk has 3 to 6 % of fat, skimmed milk less. Give what the carton says, or leave it out.";
    expect(fat(80)).toBe(cow);
    expect(fat(80, 'cow')).toBe(cow);
    expect(fat(80, 'goat')).toMatch(/^Goat's milk has 3 to 6 % of fat/);
  });

  it('differs from 36, a slipped point for whole milk of a cow, and from 17 for half-skimmed', () => {
    expect(fat(36)).toBe('Did you mean 3.6 %?');
    expect(fat(17)).toBe('Did you mean 1.7 %?');
  });
});
