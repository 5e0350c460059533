import type { ReactNode } from 'react';
import type { Fills } from './drawing.tsx';

/** A pot from the side, and what is in it; tilted where the gel is tried. */
function Pot({ children, tilted }: { readonly children: ReactNode; readonly tilted: boolean }): ReactNode {
  return (
    <g transform={tilted ? 'rotate(-9 100 140)' : ''}>
      {children}
      <path className="heavy" d="M30 34V128Q30 140 42 140H158Q170 140 170 128V34" />
    </g>
  );
}

/** Milk that sets by its acid. Liquid stays level where the pot does not. */
export const ACID_GEL: Readonly<Record<string, (fills: Fills) => ReactNode>> = {
  liquid: () => (
    <Pot tilted>
      <path d="M31 68L169 90" />
      <path className="fine" d="M52 90Q72 84 92 94T132 100M62 116Q84 108 106 116T148 116" />
    </Pot>
  ),
  wobbly: ({ curd }) => (
    <Pot tilted>
      <path fill={curd} d="M32 70Q60 54 92 74T168 82V128Q168 138 158 138H42Q32 138 32 128Z" />
      <path className="fine" d="M66 46q8-8 16 0M112 58q8-8 16 0" />
    </Pot>
  ),
  set: ({ curd }) => (
    <Pot tilted>
      <path fill={curd} d="M32 68H168V128Q168 138 158 138H42Q32 138 32 128Z" />
    </Pot>
  ),
  'pulls-away': ({ curd }) => (
    <Pot tilted={false}>
      <path className="whey" d="M32 56H168V128Q168 138 158 138H42Q32 138 32 128Z" />
      <path className="paper" d="M44 74Q100 66 156 74V126Q156 130 150 130H50Q44 130 44 126Z" />
      <path fill={curd} d="M44 74Q100 66 156 74V126Q156 130 150 130H50Q44 130 44 126Z" />
      <path className="fine" d="M92 70L98 96L90 118" />
    </Pot>
  ),
};

/** A ladle lifted out of hot milk or whey: what floats in it, and what it floats in. */
function Ladle({ children, clear }: { readonly children?: ReactNode; readonly clear: boolean }): ReactNode {
  return (
    <>
      <path className={clear ? 'whey' : 'paper'} d="M44 72H156Q152 124 100 124Q48 124 44 72Z" />
      {children}
      <path className="heavy" d="M44 72Q48 124 100 124Q152 124 156 72M156 72L182 20" />
      <path d="M44 72H156" />
    </>
  );
}

export const FLOCS: Readonly<Record<string, (fills: Fills) => ReactNode>> = {
  milky: () => (
    <Ladle clear={false}>
      <path className="fine" d="M70 92h10M104 100h10M120 84h10" />
    </Ladle>
  ),
  cloudy: ({ curd }) => (
    <Ladle clear={false}>
      <g fill={curd}>
        <path d="M66 88q6-8 14-2q6 8-4 10q-10 2-10-8ZM112 96q8-8 14 0q2 10-8 10q-8-2-6-10Z" />
      </g>
      <path className="fine" d="M92 84h8M88 110h10M130 84h6" />
    </Ladle>
  ),
  clear: ({ curd }) => (
    <Ladle clear>
      <g fill={curd}>
        <path d="M60 84q4-14 20-10q14 4 8 16q-10 12-22 6q-8-4-6-12Z" />
        <path d="M98 92q2-16 20-14q16 4 12 18q-8 14-22 10q-10-4-10-14Z" />
        <path d="M80 108q6-8 16-4q8 8-2 14q-14 2-14-10Z" />
      </g>
    </Ladle>
  ),
  sandy: () => (
    <Ladle clear>
      <g className="ink">
        {[62, 74, 86, 98, 110, 122, 134].flatMap((x, row) =>
          [84, 96, 108].map((y) => <circle key={`${x}-${y}`} cx={x + (y % 5)} cy={y + (row % 3)} r="2.2" />),
        )}
      </g>
    </Ladle>
  ),
};
