import type { ReactNode } from 'react';
import type { Fills } from './drawing.tsx';

const POT = 'M6 22V128Q6 150 28 150H172Q194 150 194 128V22';

/** A blade lifted through the set milk, seen from the side of the pot. */
export const CLEAN_BREAK: Readonly<Record<string, (fills: Fills) => ReactNode>> = {
  'not-yet': () => (
    <>
      <path d="M8 62Q32 57 56 62T92 68Q100 78 108 68T146 62T192 61" />
      <path className="heavy" d="M100 6V84M88 6H112" />
      <path className="fine" d="M70 76q6 8 12 2M118 78q6 7 12 1M86 92q5 6 10 1M110 94q5 6 10 1" />
      <path d={POT} />
    </>
  ),
  ragged: ({ curd }) => (
    <>
      <path
        fill={curd}
        d="M8 60H70L78 68L74 76L86 82L82 92L98 100L112 88L108 80L120 74L116 66L126 58L192 60V128Q192 148 172 148H28Q8 148 8 128Z"
      />
      <path
        className="paper"
        d="M72 62L78 68L74 76L86 82L82 92L98 100L112 88L108 80L120 74L116 66L125 60Q98 72 72 62Z"
      />
      <path className="fine" d="M88 74h6M100 78h6M92 86h6" />
      <path d={POT} />
    </>
  ),
  clean: ({ curd }) => (
    <>
      <path fill={curd} d="M8 60H74L98 112L126 44L192 60V128Q192 148 172 148H28Q8 148 8 128Z" />
      <path className="whey" d="M79 72Q98 64 117 67L98 110Z" />
      <path className="heavy" d="M74 60L98 112L126 44" />
      <path className="heavy" d="M112 78L146 112L138 120L150 121" />
      <path d={POT} />
    </>
  ),
  'gone-far': ({ curd }) => (
    <>
      <g fill={curd}>
        <path d="M8 60H58L64 100L42 148H28Q8 148 8 128Z" />
        <path d="M70 52L112 46L116 92L72 97Z" />
        <path d="M122 55L192 60V100H126Z" />
        <path d="M70 106L116 101L122 148H54Z" />
        <path d="M131 110H192V128Q192 148 172 148H134Z" />
      </g>
      <path d={POT} />
    </>
  ),
};

/** A wet knife lifted out of the milk, for the first flecks. */
export const FLOCCULATION: Readonly<Record<string, (fills: Fills) => ReactNode>> = {
  liquid: () => (
    <>
      <Blade />
      <path className="fine" d="M86 60V100M100 52V112M114 60V100" />
      <path className="fine" d="M100 132q-6 8 0 12q6-4 0-12" />
    </>
  ),
  flecks: () => (
    <>
      <Blade />
      {[
        [84, 46],
        [96, 58],
        [112, 50],
        [88, 72],
        [104, 78],
        [116, 68],
        [92, 92],
        [108, 98],
        [98, 112],
        [84, 104],
        [116, 88],
      ].map(([x, y]) => (
        <circle key={`${x}-${y}`} className="ink" cx={x} cy={y} r={3} />
      ))}
    </>
  ),
  thick: ({ curd }) => (
    <>
      <Blade />
      <path fill={curd} d="M80 44Q100 36 120 46Q124 70 116 84Q122 104 104 118Q92 116 86 102Q76 90 82 74Q76 58 80 44Z" />
    </>
  ),
};

function Blade(): ReactNode {
  return (
    <>
      <path className="paper" d="M72 22H128V104Q128 124 100 138Q72 124 72 104Z" />
      <path className="heavy" d="M100 4V22" />
    </>
  );
}
