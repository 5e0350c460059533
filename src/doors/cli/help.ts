/** What is there, on one page. */
export const HELP = `vatside: stands beside the vat with whoever makes cheese in small batches.

  vatside plan <make> --milk 12L --done-by 17:00    amounts, shopping list, clock and what you get
  vatside day <make>=<milk>x<pots> ... --from 09:00   several makes in one kitchen, and who needs which burner when
  vatside solve <make> --aim salt-in-moisture=1.6..2.0 --free brine-minutes ...
                                                    settings that reach what you want, how surely, and their cost
  vatside makes [--json]                            what can be made
  vatside calc --list                               the sums: rennet, wash, brine-time, ...
  vatside calc <sum> --set key=value ...            one sum, answered as JSON (--text for people)
  vatside replay <record.json>                      a finished record: what was forecast, and what came
  vatside advise <record.json>                      a make under way: on course or not, and what could be done
  vatside explain <record.json>                     what may have gone wrong, and one change for the next make
  vatside export <make> --as hand-out               a make as file, hand-out, recipe, table or calendar; a record as table
  vatside export --all <folder>                     everything that the store holds, in open forms
  vatside import <file>                             takes such a copy in; twice adds nothing
  vatside backup <file>                             a copy of the store while the app is running
  vatside restore <file>                            puts it back, into an empty folder
  vatside share <make> --milk 4L --pot 5L           a link that opens Plan with the whole question
  vatside batches [words] [--make id]               the batches that are kept, the newest first, or those with these words
  vatside serve [--port 4711]                       the app in your browser, on this device
  vatside serve --share                             the same for paired devices on your network

  vatside <command> --help says more of each; vatside --version names this version.
  Exit codes: 0 answered, 2 bad input (every problem named), 3 outside what a model can answer.
`;
