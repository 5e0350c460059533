/** What a pupil carries home with the cheese: its weight and dates, how long it may stand, who should not eat it, and how to make it at home. */
import type { Plan } from '../../make/plan.ts';
import { sentence, litres, kilograms, type Told } from './step-words.ts';
import { codeElement } from './code.ts';
import { coldBox, notForBox } from './eater.ts';
import { el, type PaperElement, type PaperSheet } from './element.ts';
import { facts, head, orBlank, para, section, table } from './parts.ts';
import { neutralDoses } from './neutral-doses.ts';

/** One pupil's piece. What nobody knows yet is a blank. */
export interface Piece {
  readonly pupil: string | null;
  readonly weightG: number | null;
  /** Words of the clock at which it left the cold. */
  readonly leftColdAt: string | null;
  /** How much milk goes into the pot at home; null where nobody said. */
  readonly homeMilkL: number | null;
  /** The whole question as an address that opens Plan; null where the make is on no other shelf. */
  readonly address: string | null;
}

/** The label's words, as they are printed on the label too. */
export interface LabelWords {
  readonly name: string;
  readonly lot: string;
  readonly made: string;
  readonly until: { readonly name: string; readonly day: string | null };
  readonly keep: string;
  readonly ingredients: readonly { readonly text: string; readonly isAllergen: boolean }[];
  readonly contains: readonly { readonly text: string; readonly isAllergen: boolean }[];
  readonly raw: string | null;
}

/** Makes for comparison beside the pupil's own pot: what a kitchen pot and a class pot hold. Our own choice. */
const SIZES_L = [4, 10] as const;

export function takeHomeSheet(input: {
  readonly plan: Plan;
  readonly label: LabelWords;
  readonly piece: Piece;
  readonly told: Told;
}): PaperSheet {
  const { plan, label, piece, told } = input;
  const { say } = told;
  const { make, setup } = plan;
  return {
    id: 'take-home',
    title: say('paper:home.title', { name: make.name }),
    head: [make.name, label.lot].join(', '),
    isOnePage: false,
    isClose: true,
    body: [
      head({ title: say('paper:home.title', { name: make.name }), under: '' }),
      el(
        'div',
        'paper-two',
        el(
          'section',
          'paper-section',
          piece.pupil === null ? null : el('p', 'paper-name', piece.pupil),
          piece.weightG === null ? null : el('p', 'paper-weight', kilograms(told, piece.weightG / 1000)),
          piece.weightG === null ? null : para(say('paper:home.weight')),
          facts(
            [...(piece.pupil === null ? ['pupils.name'] : []), ...(piece.weightG === null ? ['home.weighed'] : []), 'home.opened'].map((id) => ({ name: say(`paper:${id}`), value: null })),
            'one',
          ),
        ),
        labelElement(label, told),
      ),
      el(
        'div',
        'paper-two',
        coldBox(
          told,
          facts([{ name: say('paper:cold.left'), value: piece.leftColdAt }, { name: say('paper:cold.back'), value: null }], 'one'),
        ),
        el(
          'div',
          '',
          notForBox({ make, treatment: setup.milk.treatment, told }),
          section(say('paper:home.keep'), para(`${label.keep}. ${sentence(told, make.shelfLife.note)}`), para(say('paper:home.spoiled'))),
        ),
      ),
      again(input),
    ],
  };
} // prettier-ignore

/** The label as it stands on the tub. */
export function labelElement(label: LabelWords, { say }: Told): PaperElement {
  const parts = (of: LabelWords['ingredients']): PaperElement[] => of.map(({ text, isAllergen }) => el('span', isAllergen ? 'paper-allergen' : '', text)); // prettier-ignore
  return el(
    'div',
    'paper-label',
    el('p', '', label.name),
    el('p', '', `${say('labels:lot')} `, el('strong', '', label.lot), ` · ${say('labels:made', { day: label.made })}`),
    el('p', '', el('strong', '', `${label.until.name} `, label.until.day === null ? orBlank(null, 'short') : label.until.day)), // prettier-ignore
    el('p', '', label.keep),
    el('p', '', parts(label.ingredients)),
    el('p', '', parts(label.contains), label.raw === null ? null : el('strong', '', ` ${label.raw}`)),
  );
}

/** The same make at home: doses for three sizes that rest on nobody's packet, and the link that reckons the rest. */
function again({ plan, piece, told }: Parameters<typeof takeHomeSheet>[0]): PaperElement {
  const { say } = told;
  const { make } = plan;
  const sizes = [...new Set([...SIZES_L, ...(piece.homeMilkL === null ? [] : [piece.homeMilkL])])].sort((a, b) => a - b);
  const columns = sizes.map((volumeL) => neutralDoses({ make, volumeL, told }));
  const rows = (columns[0] ?? []).map(({ name }, index) => [
    name,
    ...columns.map((doses) => doses[index]?.value ?? null),
  ]);
  return section(
    say('paper:home.again'),
    table({
      head: [say('paper:home.milk'), ...sizes.map((volumeL) => volumeL === piece.homeMilkL ? say('paper:home.yourPot', { milk: litres(told, volumeL) }) : litres(told, volumeL))],
      rows,
    }),
    para(say('paper:home.milkWords', { buy: make.milk.cartonWords.buy.join(', '), avoid: make.milk.cartonWords.avoid.join(', ') })),
    piece.address === null
      ? para(say('paper:home.noLink'))
      : el(
          'div',
          'paper-take',
          el('div', '', para(say('paper:home.link')), para(piece.address, 'paper-address')),
          codeElement(piece.address, say('paper:home.code')),
        ),
  );
} // prettier-ignore
