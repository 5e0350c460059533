import type { ReactNode } from 'react';
import type { Fills } from './drawing.tsx';

/** A slab of matted curd, torn by two hands that are left out. */
export const MILL_TEAR: Readonly<Record<string, (fills: Fills) => ReactNode>> = {
  rubbery: ({ curd }) => (
    <>
      <path fill={curd} d="M16 56H66Q100 74 134 56H184V112H134Q100 94 66 112H16Z" />
      <path className="fine" d="M78 76Q100 82 122 76M78 92Q100 86 122 92" />
    </>
  ),
  short: ({ curd }) => (
    <>
      <path fill={curd} d="M16 54H88L82 70L92 84L82 98L90 114H16Z" />
      <path fill={curd} d="M112 54H184V114H114L106 98L116 84L106 70Z" />
    </>
  ),
  fibres: ({ curd }) => (
    <>
      <path fill={curd} d="M16 52H70L78 60L70 68L80 76L70 84L80 92L70 100L78 108L70 116H16Z" />
      <path fill={curd} d="M184 52H130L122 60L130 68L120 76L130 84L120 92L130 100L122 108L130 116H184Z" />
      <path className="fine" d="M78 60Q92 58 104 64M80 76Q100 70 120 76M80 92Q96 98 112 92M78 108Q90 104 100 110" />
    </>
  ),
  mushy: ({ curd }) => (
    <>
      <path
        fill={curd}
        d="M14 88Q26 62 52 74Q74 56 92 78Q112 62 132 78Q160 64 186 92Q178 122 146 116Q120 130 98 116Q70 130 48 116Q20 120 14 88Z"
      />
      <path className="whey" d="M52 134q6-12 12 0q0 8-6 8t-6-8ZM128 136q6-12 12 0q0 8-6 8t-6-8Z" />
    </>
  ),
};

/** The floor of a pot from above, and the track that a spoon leaves in what boils down. */
function Floor({ children, curd }: { readonly children?: ReactNode; readonly curd: string }): ReactNode {
  return (
    <>
      <circle cx="100" cy="80" r="68" fill={curd} />
      {children}
      <circle cx="100" cy="80" r="68" className="heavy" />
    </>
  );
}

export const PAN_TRACK: Readonly<Record<string, (fills: Fills) => ReactNode>> = {
  'runs-back': () => (
    <Floor curd="none">
      <path className="fine" d="M52 80Q76 70 100 80T148 80M60 98Q80 90 100 98T140 98" />
    </Floor>
  ),
  'closes-slowly': ({ curd }) => (
    <Floor curd={curd}>
      <path className="paper" d="M40 84Q70 74 96 80Q112 84 120 80Q104 92 84 92Q60 92 40 84Z" />
    </Floor>
  ),
  stays: ({ curd }) => (
    <Floor curd={curd}>
      <path className="paper" d="M36 70L164 62V92L38 98Z" />
    </Floor>
  ),
  crumbles: ({ curd }) => (
    <Floor curd="none">
      <g fill={curd}>
        <path d="M56 60l14-12l16 8l-4 18l-20 2ZM104 46l18-4l10 14l-10 14l-18-6ZM62 100l18-10l14 12l-8 18l-20-4ZM112 92l20-8l14 14l-12 18l-20-6Z" />
      </g>
    </Floor>
  ),
};
