import { useCallback, useDeferredValue, useEffect, useMemo, useState } from 'react';
import { forecastChecks, type MakeCheck } from '../../../../exchange/make-checks.ts';
import { isRecord } from '../../../../make/problems.ts';
import type { Make } from '../../../../make/make.ts';
import type { Problem } from '../../../../numbers/validity.ts';
import { isCurrent } from '../../forecasting/forecast-state.ts';
import { useForecast } from '../../forecasting/use-forecast.ts';
import { fieldOf, put, type Path } from './edit.ts';
import { readWritten } from './read.ts';
import type { Written } from './written.ts';

/** Enough to tell a time that is far off from one that is not. */
const MEMBERS = [60] as const;

/** The form's hold on what is being written. */
export interface Edit {
  readonly json: Written;
  readonly put: (path: Path, value: unknown) => void;
  /** Another whole, for what changes more than one place. */
  readonly set: (json: Written) => void;
  /** What is wrong at a path, or just below it where a figure stands there. */
  readonly problemAt: (path: Path) => Problem | undefined;
}

export interface Changing {
  readonly edit: Edit;
  readonly make: Make | null;
  readonly problems: readonly Problem[];
  readonly checks: readonly MakeCheck[];
  /** False while the forecast of what was last written is still being worked out. */
  readonly isChecked: boolean;
  /** Something was written since it came. */
  readonly isTouched: boolean;
  /** Back to how it came; nothing half written is kept. */
  readonly forget: () => void;
}

const keyOf = (id: string): string => `vatside.make-draft:${id}`;

function kept(id: string): Written | null {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(keyOf(id)) ?? '');
    return isRecord(read) ? { ...read } : null;
  } catch {
    return null;
  }
}

/**
 * A make being written: kept on this device as it is typed, read at once, and forecast beside the page.
 * @param id under which what is half written is kept
 * @param original as it came, by identity
 */
export function useChange(id: string, original: Written): Changing {
  const [json, setJson] = useState<Written>(() => kept(id) ?? original);
  const [isTouched, setTouched] = useState(() => kept(id) !== null);
  const set = useCallback((next: Written) => {
    setJson(next);
    setTouched(true);
  }, []);
  useEffect(() => {
    if (isTouched) localStorage.setItem(keyOf(id), JSON.stringify(json));
  }, [id, json, isTouched]);
  const read = useMemo(() => readWritten(json), [json]);
  const plan = useDeferredValue(read.plan);
  const state = useForecast(plan, { members: MEMBERS });
  const isChecked = read.plan !== null && state.of === read.plan && isCurrent(state);
  const foreseen = useMemo(
    () =>
      isChecked && state.forecast !== null && read.plan !== null
        ? forecastChecks({ plan: read.plan, forecast: state.forecast })
        : [],
    [isChecked, state.forecast, read.plan],
  );
  const edit = useMemo<Edit>(
    () => ({
      json,
      put: (path, value) => set(put(json, path, value)),
      set,
      problemAt: (path) => {
        const field = fieldOf(path);
        return read.problems.find((problem) => problem.field === field || problem.field === `${field}.value`);
      },
    }),
    [json, read, set],
  );
  return {
    edit,
    make: read.make,
    problems: read.problems,
    checks: useMemo(() => [...read.checks, ...foreseen], [read.checks, foreseen]),
    isChecked: isChecked || read.make === null,
    isTouched,
    forget: useCallback(() => {
      localStorage.removeItem(keyOf(id));
      setTouched(false);
      setJson(original);
    }, [id, original]),
  };
}
