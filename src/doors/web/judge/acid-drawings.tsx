import type { ReactNode } from 'react';
import type { Fills } from './drawing.tsx';

/** A pot from the side, tilted where the gel is tried: its wall, its floor. */
function Pot({ tilted = false }: { readonly tilted?: boolean }): ReactNode {
  return <path className="heavy" d="M30 30V128Q30 140 42 140H158Q170 140 170 128V30" transform={tilt(tilted)} />;
}

const tilt = (tilted: boolean): string => (tilted ? 'rotate(-9 100 140)' : '');

/** Milk that sets by its acid, in a pot that is tilted a little. */
export const ACID_GEL: Readonly<Record<string, (fills: Fills) => ReactNode>> = {
  liquid: () => (
    <>
      <Pot tilted />
      <path d="M24 74L172 62M40 96Q60 90 80 96T120 94T156 90" />
    </>
  ),
  wobbly: ({ curd }) => (
    <>
      <Pot tilted />
      <path fill={curd} d="M22 70Q60 52 98 66Q136 78 172 48L182 118L50 138Z" />
      <path className="fine" d="M70 50q8-8 16 0M112 62q8-8 16 0" />
    </>
  ),
  set: ({ curd }) => (
    <>
      <Pot tilted />
      <path fill={curd} d="M23 72L162 49L176 116Q177 122 170 124L52 142Q44 142 43 136Z" />
    </>
  ),
  'pulls-away': ({ curd }) => (
    <>
      <path className="whey" d="M32 56H168V128Q168 138 158 138H42Q32 138 32 128Z" />
      <path fill={curd} className="paper" d="M44 74Q100 66 156 74V126Q156 130 150 130H50Q44 130 44 126Z" />
      <path fill={curd} d="M44 74Q100 66 156 74V126Q156 130 150 130H50Q44 130 44 126Z" />
      <path className="fine" d="M92 70L98 96L90 118" />
      <Pot />
    </>
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
