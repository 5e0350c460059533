/** What one asks of a make before it is on the table: few enough facts that a list can carry them for every make. */
import type { CultureKind, Family, Make, Species, Treatment } from './make.ts';
import type { Ingredient, Step } from './step.ts';

/** A milk that is not the make's own, and what that does; the source in words. */
export interface MilkDeviation {
  readonly when: Make['milk']['deviations'][number]['when'];
  readonly effect: 'caution' | 'refuse';
  readonly because: string;
  readonly instead: string;
  readonly source: string;
}

export interface MakeFacts {
  readonly id: string;
  readonly version: number;
  readonly status: Make['status'];
  readonly name: string;
  readonly family: Family;
  readonly about: string;
  readonly difficulty: number;
  /** Trade and other-language names; place-linked and protected ones stand only here. */
  readonly aliases: readonly string[];
  readonly keepsDays: number;
  readonly milk: {
    /** What the pot is filled with. */
    readonly fill: 'milk' | 'whey';
    readonly species: readonly Species[];
    readonly treatments: readonly Treatment[];
    readonly deviations: readonly MilkDeviation[];
    readonly leastFatPercent: number;
  };
  /** Work for the hands from the milk to the last step [min]. */
  readonly handsMin: number;
  /** Burners that are wanted at one moment; a kettle counts as one. */
  readonly burners: number;
  /** What goes into the pot besides milk, water and salt, in the order of the work. */
  readonly ingredients: readonly Ingredient[];
  readonly cultureKind: CultureKind | null;
  /** Steps that end on a pH and on nothing else, by name: these cannot be told without a meter. */
  readonly onlyByPH: readonly string[];
  /** Steps where a meter would help, though hand, eye or clock decide too. */
  readonly helpedByPH: readonly string[];
  /** Days that it lies after the day of the make before it is eaten; 0 for a fresh cheese. */
  readonly agesDays: number;
}

/** The facts of a make that its milk, its steps and its doses already say; none of them is typed by hand. */
export function makeFacts(make: Make): MakeFacts {
  const { steps } = make;
  return {
    id: make.id,
    version: make.version,
    status: make.status,
    name: make.name,
    family: make.family,
    about: make.about,
    difficulty: make.difficulty,
    aliases: make.aliases,
    keepsDays: make.shelfLife.days.value,
    milk: {
      fill: make.milk.fill ?? 'milk',
      species: make.milk.species,
      treatments: make.milk.treatments,
      deviations: make.milk.deviations.map(({ when, effect, because, instead, source }) => ({
        when,
        effect,
        because,
        instead,
        source: sourceWords(make, source),
      })),
      leastFatPercent: make.milk.fatPercent.low,
    },
    handsMin: steps.reduce((sum, { hands }) => sum + hands.startMin.value + hands.duringMin.value + hands.endMin.value, 0), // prettier-ignore
    burners: burnersOf(steps),
    ingredients: [...new Set(steps.flatMap((step) => ingredientsOf(step, make)))],
    cultureKind: make.doses.culture?.kind ?? null,
    onlyByPH: steps.filter(endsOnlyByPH).map(({ name }) => name),
    helpedByPH: steps.filter((step) => hasPH(step) && !endsOnlyByPH(step)).map(({ name }) => name),
    agesDays: agesDays(steps),
  };
}

/** A source of a make in words. */
export function sourceWords(make: Pick<Make, 'sources'>, source: number | 'common practice' | undefined): string {
  const practice = 'common practice (no source)';
  return source === undefined || source === 'common practice' ? practice : (make.sources[source] ?? practice);
}

const hasPH = ({ until }: Step): boolean => until.of.some(({ kind }) => kind === 'pH');

/** With `all`, the pH must be met whatever the others say. */
const endsOnlyByPH = (step: Step): boolean =>
  hasPH(step) && (step.until.join === 'all' || step.until.of.every(({ kind }) => kind === 'pH'));

/** Two burners where hot water is made ready for a step that follows one with the pot on the fire. */
function burnersOf(steps: readonly Step[]): number {
  const onFire = (step: Step | undefined): boolean => step?.kit.includes('burner') === true;
  const heatsBeside = steps.some(
    (step, index) =>
      step.prepare.some(({ amount }) => amount === 'wash-water' || amount === 'stretch-water') &&
      onFire(steps[index - 1]),
  );
  return heatsBeside ? 2 : steps.some(onFire) ? 1 : 0;
}

/** What a step adds; the acid of a heated milk goes in with the heat. */
function ingredientsOf({ verb, set }: Step, { doses }: Make): Ingredient[] {
  if (set.ingredient !== undefined) return [set.ingredient];
  return verb === 'heatWithAcid' && doses.acid !== undefined ? ['acid'] : [];
}

const MINUTES_A_DAY = 1440;

/** Whole days that it lies by the make's own time: dried, aged, kept in its liquid. */
function agesDays(steps: readonly Step[]): number {
  const days = steps
    .filter(({ verb }) => verb === 'age' || verb === 'keepInLiquid' || verb === 'dry')
    .flatMap(({ until }) =>
      until.of.flatMap((end) =>
        end.kind === 'days' ? [end.days.value] : end.kind === 'time' ? [end.minutes.value / MINUTES_A_DAY] : [],
      ),
    )
    .reduce((sum, each) => sum + each, 0);
  return Math.floor(days);
}
