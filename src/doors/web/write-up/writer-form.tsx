import type { ReactNode } from 'react';
import type { Make } from '../../../make/make.ts';
import { useReader } from '../device/reader.tsx';
import { Field } from '../look/field.tsx';

/** What the writer types; what is empty is told as missing. */
export interface Typed {
  readonly name: string;
  readonly about: string;
  readonly author: string;
  readonly licence: string;
  readonly altitude: string;
  readonly forms: string;
  readonly tests: string;
  /** Heating times left out. */
  readonly neutral: boolean;
}

const LINES = ['name', 'about', 'author', 'licence', 'altitude', 'forms', 'tests'] as const;
const HINTED: ReadonlySet<string> = new Set(['licence', 'forms', 'tests']);
const LONGEST = 400; // two sentences; our own choice

/** What only the writer can say. */
export function WriterForm({
  typed,
  usual,
  onChange,
}: {
  readonly typed: Typed;
  /** The make that is written up: its own name and words stand until others are typed. */
  readonly usual: Make | null;
  readonly onChange: (typed: Typed) => void;
}): ReactNode {
  const { say } = useReader();
  const placeholder = (line: (typeof LINES)[number]): string =>
    line === 'name' ? (usual?.name ?? '') : line === 'about' ? (usual?.about ?? '') : '';
  return (
    <div className="write-up-form">
      {LINES.map((line) => (
        <div key={line} className={line === 'about' ? 'write-up-wide' : ''}>
          <Field label={say(`writeup:${line}`)} hint={HINTED.has(line) ? say(`writeup:${line}Hint`) : undefined}>
            {(ties) => (
              <input
                {...ties}
                className="field-input"
                autoComplete="off"
                inputMode={line === 'altitude' ? 'decimal' : 'text'}
                value={typed[line]}
                placeholder={placeholder(line)}
                onChange={(event) => onChange({ ...typed, [line]: event.target.value.slice(0, LONGEST) })}
              />
            )}
          </Field>
        </div>
      ))}
      <label className="write-up-check write-up-wide">
        <input
          type="checkbox"
          checked={typed.neutral}
          onChange={(event) => onChange({ ...typed, neutral: event.target.checked })}
        />
        <span>{say('writeup:neutral')}</span>
      </label>
    </div>
  );
}
