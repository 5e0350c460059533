/**
 * The models as pages: which modules of `src/science` each is made of, which published rows belong to it, and which
 * calculators answer with it. Everything else on a page is read from the code.
 */

export interface ScienceModel {
  /** Name of its page. */
  readonly id: string;
  readonly title: string;
  /** What a cheesemaker asks it. */
  readonly answers: string;
  /** Files in `src/science`, the most important first. */
  readonly modules: readonly string[];
  /** Sums of the calculator contract that stand on it. */
  readonly calculators: readonly string[];
  /** Ids of the published rows that are about it. */
  readonly rows: RegExp;
}

export const MODELS: readonly ScienceModel[] = [
  {
    id: 'milk',
    title: 'Milk',
    answers: 'What this milk is made of, how heavy a litre is, and what warms it.',
    modules: ['milk.ts', 'whey.ts'],
    calculators: ['milk'],
    rows: /^milk-/,
  },
  {
    id: 'standardising',
    title: 'Standardising milk',
    answers: 'How much cream, skim milk or powder brings the milk to a fat or to a casein for each part of fat.',
    modules: ['standardise.ts'],
    calculators: ['standardise'],
    rows: /^std-/,
  },
  {
    id: 'properties',
    title: 'Thermal properties',
    answers: 'How milk, whey, curd and cheese hold and pass on heat.',
    modules: ['properties.ts', 'cheese-thermal.ts', 'vat-liquid.ts'],
    calculators: [],
    rows: /^heat-(k|alpha)-/,
  },
  {
    id: 'vat-loss',
    title: 'What a vat loses',
    answers: 'How fast a pot of warm milk cools, open, lidded or wrapped.',
    modules: ['vat.ts', 'vat-air.ts', 'hold.ts', 'pot.ts'],
    calculators: ['hold', 'vat-fit'],
    rows: /^heat-(tank|nusselt)-/,
  },
  {
    id: 'heating',
    title: 'Heating the vat',
    answers: 'How long a burner or a bath takes, where to turn it off, and what readings say about it.',
    modules: ['heater.ts', 'heater-bath.ts', 'heater-fit.ts'],
    calculators: ['heat', 'vat-fit'],
    rows: /^$/,
  },
  {
    id: 'wash',
    title: 'Whey replaced by hot water',
    answers: 'What the vat comes to when whey is drawn and hot water poured in, and how much water a target needs.',
    modules: ['wash.ts'],
    calculators: ['wash'],
    rows: /^heat-whey-/,
  },
  {
    id: 'acidification',
    title: 'Souring',
    answers: 'How the pH of milk and curd falls, and when it reaches a target.',
    modules: [
      'acidification-make.ts',
      'acidification.ts',
      'acidification-step.ts',
      'culture.ts',
      'acidification-error.ts',
    ],
    calculators: ['ripen'],
    rows: /^acid-[LYM]\d/,
  },
  {
    id: 'overheating',
    title: 'Too hot for the culture',
    answers: 'How much of the culture and of the rennet an overheated vat leaves.',
    modules: ['heat-death.ts'],
    calculators: [],
    rows: /^overheat-/,
  },
  {
    id: 'buffering',
    title: 'Acid and buffering',
    answers: 'How much acid moves the pH of milk, and what a titration of it reads.',
    modules: ['buffer.ts', 'buffer-acid.ts', 'acidity.ts'],
    calculators: ['acid', 'acidity-units'],
    rows: /^acid-(lee|peak|yoghurt|fermented|goat)-/,
  },
  {
    id: 'calcium',
    title: 'Calcium',
    answers: 'What calcium chloride adds to milk, and how much calcium the curd keeps as it sours.',
    modules: ['buffer-calcium.ts', 'calcium.ts'],
    calculators: ['calcium'],
    rows: /^(acid-calcium-|calcium-limit)/,
  },
  {
    id: 'clotting',
    title: 'Rennet and clotting',
    answers: 'How much rennet, when the first flecks are seen, and when to cut.',
    modules: ['coagulation.ts', 'rennet.ts', 'rennet-assay.ts'],
    calculators: ['rennet', 'rennet-test', 'clot', 'cut-time'],
    rows: /^curd-A([1-9]|10)$/,
  },
  {
    id: 'firmness',
    title: 'Firmness of the gel',
    answers: 'How firm the gel is by the minute.',
    modules: ['firmness.ts'],
    calculators: [],
    rows: /^curd-A11$/,
  },
  {
    id: 'syneresis',
    title: 'Whey leaving the curd',
    answers: 'How much whey has left after cutting, how moist the curd is, and what is in each.',
    modules: ['syneresis.ts', 'syneresis-balance.ts'],
    calculators: ['whey'],
    rows: /^curd-A(18|51)$/,
  },
  {
    id: 'yield',
    title: 'Yield and names',
    answers: 'How much cheese the milk gives, what is in it, and which names that composition may bear.',
    modules: ['yield.ts', 'yield-families.ts', 'yield-names.ts', 'name-standards.ts'],
    calculators: ['yield', 'standards'],
    rows: /^curd-A(17|19|2\d|3\d|4\d|50)$/,
  },
  {
    id: 'judgements',
    title: "The maker's own judgement",
    answers: 'What a stretch, a clean break, a grip or a taste says about the curd.',
    modules: ['judgements.ts', 'judgement-models.ts'],
    calculators: [],
    rows: /^$/,
  },
  {
    id: 'stretching',
    title: 'Curd in hot water',
    answers: 'How much hot water stretching takes, and how long until the middle of a piece is warm.',
    modules: ['stretching-bowl.ts', 'stretching-water.ts'],
    calculators: ['stretch-water'],
    rows: /^$/,
  },
  {
    id: 'cooling',
    title: 'Cheese in cold water',
    answers: 'How long a shaped cheese takes to cool, how warm it is inside, and how much ice that needs.',
    modules: ['cooling.ts', 'series.ts', 'body.ts'],
    calculators: ['cool'],
    rows: /^heat-(root|weight|egg)-/,
  },
  {
    id: 'brine',
    title: 'Brine',
    answers: 'How strong a brine is in every way of saying it, how to make, mend and keep it.',
    modules: ['brine.ts', 'brine-strength.ts', 'brine-amounts.ts', 'brine-care.ts'],
    calculators: ['brine'],
    rows: /^brine-/,
  },
  {
    id: 'salting',
    title: 'Salting in brine',
    answers: 'How long a cheese lies in brine, where the salt is in it, and when it has evened out.',
    modules: ['salting.ts', 'brine-bath.ts'],
    calculators: ['brine-time'],
    rows: /^salt-(diffusivity|chamba|feta|hours|even|trade)-/,
  },
  {
    id: 'dry-salting',
    title: 'Dry salting',
    answers: 'How much salt to mix into curd.',
    modules: ['dry-salting.ts'],
    calculators: ['dry-salt'],
    rows: /^salt-dry-/,
  },
  {
    id: 'water-activity',
    title: 'Water activity',
    answers: 'How free the water of a cheese is.',
    modules: ['water-activity.ts'],
    calculators: ['water-activity'],
    rows: /^activity-/,
  },
  {
    id: 'pasteurisation',
    title: 'Pasteurisation',
    answers: 'Whether a log of temperatures holds the legal minimum, and what it adds up to.',
    modules: ['pasteurisation.ts', 'pasteurisation-hold.ts', 'pasteurisation-lethality.ts'],
    calculators: ['pasteurise'],
    rows: /^(legal|past)-/,
  },
  {
    id: 'listeria',
    title: 'Listeria in cheese',
    answers: 'Which legal category for Listeria a cheese is in, and how far it could grow.',
    modules: ['listeria.ts', 'listeria-growth.ts', 'growth.ts'],
    calculators: ['listeria'],
    rows: /^listeria-/,
  },
  {
    id: 'ageing',
    title: 'Ageing',
    answers:
      'How much a cheese loses as it ages, what its weighings say about its rind, how moist its box is, and what grows on it.',
    modules: ['ageing.ts', 'ageing-learn.ts', 'ripening-time.ts', 'box-humidity.ts', 'rind-growth.ts', 'eating-age.ts'],
    calculators: ['age'],
    rows: /^age-/,
  },
  {
    id: 'staphylococcus',
    title: 'Staphylococcus in slow milk',
    answers: 'How far S. aureus could have grown in milk that stays warm and does not sour.',
    modules: ['staph.ts'],
    calculators: [],
    rows: /^staph-/,
  },
  {
    id: 'burns',
    title: 'Burns',
    answers: 'How soon hot water and hot curd burn skin.',
    modules: ['scald.ts'],
    calculators: ['scald'],
    rows: /^scald-/,
  },
  {
    id: 'cautions',
    title: 'Cautions',
    answers: 'Which cautions a make calls for.',
    modules: ['cautions.ts'],
    calculators: [],
    rows: /^food-code-/,
  },
];

/** The model that a published row is about, or null. */
export const modelOfRow = (id: string): ScienceModel | null => MODELS.find((model) => model.rows.test(id)) ?? null;
