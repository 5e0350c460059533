import type { ReactNode } from 'react';
import type { Fills } from './drawing.tsx';

/** An open hand from the side; what lies on it tells how dry the grains are. */
function Palm(): ReactNode {
  return (
    <path d="M6 150Q10 118 36 110Q60 104 96 106H160Q176 106 176 116Q176 124 162 124H120M150 124Q172 124 172 133Q172 141 156 141H116M144 141Q160 142 158 150" />
  );
}

export const GRIP: Readonly<Record<string, (fills: Fills) => ReactNode>> = {
  smears: ({ curd }) => (
    <>
      <Palm />
      <path
        fill={curd}
        d="M48 104Q58 90 80 92Q98 84 118 92Q142 90 156 104Q150 110 146 106V122Q142 130 138 122V108Q116 112 104 108V116Q100 122 96 116V108Q70 112 48 104Z"
      />
    </>
  ),
  'holds-loosely': ({ curd }) => (
    <>
      <Palm />
      <path fill={curd} d="M58 104Q54 84 70 72Q86 56 104 60Q128 58 138 78Q148 92 142 104Z" />
      <path className="fine" d="M74 74L84 88L78 102M104 62L100 82L110 98M128 70L120 86L130 102" />
      <g fill={curd}>
        <circle cx="46" cy="98" r="6" />
        <circle cx="154" cy="98" r="6" />
        <circle cx="162" cy="88" r="4" />
      </g>
    </>
  ),
  grips: ({ curd }) => (
    <>
      <Palm />
      <path fill={curd} className="heavy" d="M62 104Q52 76 74 56Q98 40 122 54Q146 72 138 104Z" />
      <path className="fine" d="M62 74q12 6 10 18M138 74q-12 6-10 18M84 52q4 8 0 14M114 52q-4 8 0 14" />
    </>
  ),
  rubble: ({ curd }) => (
    <>
      <Palm />
      <g fill={curd}>
        {[
          [56, 96, 9],
          [76, 96, 10],
          [98, 97, 9],
          [120, 96, 10],
          [141, 97, 8],
          [66, 80, 8],
          [88, 78, 9],
          [111, 79, 8],
          [131, 82, 7],
          [79, 63, 7],
          [101, 62, 7],
        ].map(([x = 0, y = 0, r = 0]) => (
          <path
            key={`${x}-${y}`}
            d={`M${x - r} ${y + r * 0.5}L${x - r * 0.4} ${y - r}L${x + r * 0.8} ${y - r * 0.7}L${x + r} ${y + r * 0.4}L${x + r * 0.1} ${y + r}Z`}
          />
        ))}
      </g>
    </>
  ),
};
