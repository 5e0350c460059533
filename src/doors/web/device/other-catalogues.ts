type Load = () => Promise<object>;
/** What the other screens say comes with the first of them; the vat's own code does not even name these. */
export const others: Readonly<Record<string, Load>> = import.meta.glob<object>(
  ['../../../../words/*/*.json', '!../../../../words/*/{app,vat,advice,bell,findings,today}.json'],
  { import: 'default' },
);
