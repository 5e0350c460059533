import { useEffect, useId, useRef, type ReactNode } from 'react';
import './field.css';

/** What every field is told, whatever stands in its box. */
export interface FieldWords {
  readonly label: string;
  readonly error?: string | undefined;
  readonly hint?: string | undefined;
  /** In the sentence the words around the field are its label to the eye. */
  readonly hideLabel?: boolean;
}

/** What the control in the box must carry, so that its label, its hint and its error belong to it. */
export interface ControlTies {
  readonly id: string;
  readonly 'aria-invalid': boolean;
  readonly 'aria-describedby'?: string;
}

/** The frame of every field: label, box, hint and error; what is wrong is said beside the field, never instead of it. */
export function Field({
  label,
  error,
  hint,
  hideLabel = false,
  children,
}: FieldWords & { readonly children: (ties: ControlTies) => ReactNode }): ReactNode {
  const id = useId();
  const said = useRef<HTMLSpanElement>(null);
  const isWrong = error !== undefined;
  // What is wrong with the figure under the finger must not stand behind a bar at the foot of the screen.
  useEffect(() => {
    const field = said.current?.parentElement;
    if (isWrong && field?.contains(document.activeElement) === true) said.current?.scrollIntoView({ block: 'nearest' });
  }, [isWrong]);
  const told = [error === undefined ? '' : `${id}-error`, hint === undefined ? '' : `${id}-hint`].join(' ').trim();
  return (
    <span className="field">
      <label htmlFor={id} className={hideLabel ? 'out-of-sight' : 'field-label'}>
        {label}
      </label>
      <span className={`field-box ${error === undefined ? '' : 'field-wrong'}`}>
        {children({ id, 'aria-invalid': error !== undefined, ...(told === '' ? {} : { 'aria-describedby': told }) })}
      </span>
      {hint === undefined ? null : (
        <span id={`${id}-hint`} className="field-hint">
          {hint}
        </span>
      )}
      {error === undefined ? null : (
        <span ref={said} id={`${id}-error`} className="field-error" role="alert">
          {error}
        </span>
      )}
    </span>
  );
}
