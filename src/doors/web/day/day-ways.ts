import type { DayWay } from '../../../forecast/day/day.ts';
import type { DayState } from './day-state.ts';

/** A way out taken: the wish as it becomes. Pots of the record stay as they are. */
export function takeWay(state: DayState, way: DayWay): DayState {
  const { fields } = way;
  const number = (key: string): number => Number(fields[key] ?? 0);
  const rows = new Set(String(fields['potIds'] ?? '').split(' ').map((id) => id.replace(/\.\d+$/, ''))); // prettier-ignore
  switch (way.code) {
    case 'more-burners':
      return { ...state, kit: { ...state.kit, burner: number('count') } };
    case 'more-kettles':
      return { ...state, kit: { ...state.kit, kettle: number('count') } };
    case 'more-hands':
      return { ...state, kit: { ...state.kit, hands: number('count') } };
    case 'start-earlier':
      return { ...state, earlierMin: state.earlierMin + number('byMin') };
    case 'end-later':
      return { ...state, to: timeOf(number('toMin')) };
    case 'fewer-pots':
      return { ...state, rows: fewer(state.rows, number('of') - number('count')) };
    case 'curd-kept-cold':
      return { ...state, rows: state.rows.map((row) => (rows.has(row.id) ? { ...row, madeFromMin: number('madeFromMin') } : row)) }; // prettier-ignore
    case 'quicker-make':
      return { ...state, rows: state.rows.map((row) => (rows.has(row.id) ? { ...row, makeId: String(fields['makeId']) } : row)) }; // prettier-ignore
  }
}

/** "12:05" of minutes since midnight; the last minute of the day for what lies beyond it. */
const timeOf = (minutes: number): string => {
  const at = Math.min(minutes, 24 * 60 - 5);
  return `${String(Math.floor(at / 60)).padStart(2, '0')}:${String(at % 60).padStart(2, '0')}`;
};

/** So many pots fewer, the last ones first. */
function fewer(rows: DayState['rows'], count: number): DayState['rows'] {
  let left = count;
  return [...rows]
    .reverse()
    .map((row) => {
      const off = Math.min(left, row.pots);
      left -= off;
      return { ...row, pots: row.pots - off };
    })
    .filter(({ pots }) => pots > 0)
    .reverse();
}
