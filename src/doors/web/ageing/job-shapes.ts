/** A shape a job, around the origin and about nine units wide: the same mark in the weeks and on the round's button. */
const SHAPES: Readonly<Record<string, string>> = {
  turn: 'M-4 0A4 4 0 1 1 4 0A4 4 0 1 1-4 0Z',
  brush: 'M-4-3.5H4V3.5H-4Z',
  wash: 'M0-5C3-1 4 0 4 2A4 3.5 0 0 1-4 2C-4 0-3-1 0-5Z',
  weigh: 'M0-4.5L4.5 4H-4.5Z',
  taste: 'M-4.5 4L0-4.5 4.5 4 0 1Z',
  look: 'M-5 0C-2-4 2-4 5 0C2 4-2 4-5 0Z',
};
const OTHER = 'M-4 0 0-4 4 0 0 4Z';

export const jobShape = (job: string): string => SHAPES[job] ?? OTHER;
