/** The answer that stands in the record where an alarm was over before anybody answered it. */
export const NOBODY = 'nobody';

/** Whether somebody answered: such an alarm does not sound again, while one that nobody answered does if its cause comes back. */
export const isAnswer = ({ answer }: { readonly answer: string }): boolean => answer !== NOBODY;
