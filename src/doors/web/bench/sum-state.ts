/** Everything a part of the sum's screen needs: the sum, its fields, its draft, its problems, and how to change it. */
import type { Problem } from '../../../numbers/validity.ts';
import type { SumField } from '../../../exchange/told/field-shapes.ts';
import type { SumDraft } from './sum-draft.ts';
import type { SumShape } from '../../../exchange/told/sum-shapes.ts';

export interface SumState {
  readonly name: string;
  readonly shape: SumShape;
  readonly fields: readonly SumField[];
  readonly draft: SumDraft;
  readonly problems: readonly Problem[];
  /** Of the last answer; null before there was one. */
  readonly result: unknown;
  readonly change: (draft: SumDraft) => void;
}

export const fieldAt = (state: Pick<SumState, 'fields'>, path: string): SumField | null =>
  state.fields.find((field) => field.path === path) ?? null;
