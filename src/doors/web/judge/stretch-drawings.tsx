import type { ReactNode } from 'react';
import type { Fills } from './drawing.tsx';

/** Two spoons pulling a hot slice apart; a finger's width beside it is the only scale. */
function Spoons({ apart }: { readonly apart: number }): ReactNode {
  const left = 100 - apart;
  const right = 100 + apart;
  return (
    <>
      <path
        d={`M${left} 78Q${left - 16} 62 ${left - 30} 70Q${left - 36} 80 ${left - 26} 88Q${left - 10} 94 ${left} 78M${left - 33} 76L${Math.max(2, left - 60)} 60`}
      />
      <path
        d={`M${right} 78Q${right + 16} 62 ${right + 30} 70Q${right + 36} 80 ${right + 26} 88Q${right + 10} 94 ${right} 78M${right + 33} 76L${Math.min(198, right + 60)} 60`}
      />
    </>
  );
}

/** A fingertip, seen from above: one finger wide. */
function Finger(): ReactNode {
  return <path className="fine" d="M91 158V136Q91 126 100 126Q109 126 109 136V158M94 132q6-5 12 0" />;
}

export const STRETCH: Readonly<Record<string, (fills: Fills) => ReactNode>> = {
  crumbles: ({ curd }) => (
    <>
      <Spoons apart={40} />
      <g fill={curd}>
        <path d="M58 62L74 58L80 72L66 80Z" />
        <path d="M124 58L142 62L136 78L120 74Z" />
        <path d="M86 66L96 60L104 70L94 80Z" />
        <path d="M108 82L116 78L122 88L112 94Z" />
        <path d="M82 88L92 86L94 98L84 100Z" />
        <path d="M98 104L108 102L108 112L98 114Z" />
      </g>
      <Finger />
    </>
  ),
  'tears-short': ({ curd }) => (
    <>
      <Spoons apart={34} />
      <path fill={curd} d="M58 66Q72 54 82 66L92 70L84 75L94 80L84 84Q72 96 58 86Z" />
      <path fill={curd} d="M142 66Q128 54 118 66L108 71L116 76L107 81L116 85Q128 96 142 86Z" />
      <Finger />
    </>
  ),
  'pulls-rough': ({ curd }) => (
    <>
      <Spoons apart={52} />
      <path
        fill={curd}
        d="M40 66Q54 54 66 66L78 70L88 67L98 73L110 68L122 71L134 66Q146 54 160 66V86Q148 98 134 87L122 82L112 86L100 81L88 86L76 82L66 87Q52 98 40 86Z"
      />
      <path className="fine" d="M70 92l9 7M98 94l9 7M124 91l9 7M80 61l7-6M116 61l7-6" />
      <Finger />
    </>
  ),
  'long-smooth': ({ curd }) => (
    <>
      <g transform="translate(0 -46)">
        <Spoons apart={68} />
      </g>
      <path
        fill={curd}
        d="M24 22Q38 10 50 22Q60 84 100 92Q140 84 150 22Q162 10 176 22V40Q166 50 158 44Q148 106 100 116Q52 106 42 44Q34 50 24 40Z"
      />
      <path className="paper" d="M47 34Q60 92 100 101Q140 92 153 34Q142 98 100 107Q58 98 47 34Z" />
      <Finger />
    </>
  ),
  runs: ({ curd }) => (
    <>
      <Spoons apart={40} />
      <path
        fill={curd}
        d="M50 70Q64 58 76 70Q90 76 100 74Q112 76 124 70Q136 58 150 70Q146 84 136 84V106Q132 114 128 106V86Q118 90 112 88V116Q106 124 100 116V90Q90 90 84 88V100Q80 108 76 100V86Q60 88 50 70Z"
      />
      <path className="whey" d="M30 138Q64 126 100 130T170 138Q140 150 100 148T30 138Z" />
      <path className="fine" d="M58 138h10M130 139h12" />
    </>
  ),
};
