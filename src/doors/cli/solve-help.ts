import { AIM_NAMES } from '../../exchange/solve/question-text.ts';

/** What `vatside solve` takes. */
export const SOLVE_HELP = `vatside solve <make> --milk 12L --aim salt-in-moisture=1.6..2.0 --free brine-minutes=20..90 [...]

What must come out, what may be changed for it, and how surely: back come the settings that reach it at the least
change from the plan, what they cost, other ways, or which aim stands in the way and what comes nearest. Every chance
told is counted among makes that had no part in the search.

  --aim NAME=LOW..HIGH   once for each aim, up to four, all to be met together; either end may be left open (=..55)
                         ${Object.keys(AIM_NAMES).join(', ')}
                         weight=1.2..1.5kg, done-by=16:30, pH@rest-in-whey=5.8..6.0 (at the end of that step)
  --free NAME[=LOW..HIGH]  once for each thing that may change, up to five; without a range, as far as the make allows
                         see the names with: vatside solve <make> --list
                         start=08:00..10:00 moves the whole make
  --chance 0.8           of such makes, the share that must meet every aim (0.5 to 0.98)
  --list                 what may be freed in this make, and how far
  --start 09:00, --date 2026-03-02
  --seed 1  --lang en-GB|en-US|es
  --json | --text

Milk and kit are said as in vatside plan --help. What is found goes into a plan with the same words:
  vatside plan <make> --milk 12L --set changes.brine-minutes=34
`;
