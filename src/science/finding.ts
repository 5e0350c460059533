/** What a model or a rule has to say beside its number: shown, kept, never silent. */

export type Severity = 'info' | 'caution' | 'stop';

/**
 * One remark. Words are made at the door from `code` and `fields` (catalogue `words/`), so that the command line,
 * the API and the screens agree.
 */
export interface Finding {
  readonly severity: Severity;
  /** Stable id, as in the caution list: `stretch-hands`, `clot-outside-validity`. */
  readonly code: string;
  /** Numbers and names the sentence needs, each with its unit in the key: `{ waterC: 78 }`. */
  readonly fields: Readonly<Record<string, number | string>>;
  /** Where the rule or limit comes from; `common practice (no source)` where there is none. */
  readonly source: string;
  /** True where the figure behind it was written from memory and not yet confirmed. */
  readonly unconfirmed?: boolean;
}
