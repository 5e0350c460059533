/** What `vatside plan` takes. */
export const PLAN_HELP = `vatside plan <make> --milk 12L [--start 09:00 | --done-by 17:00] [...]

Only the milk must be said; the rest is assumed, listed, and shown as assumed.

  --milk 12L             also 3gal, 12qt
  --milk-type WORDS      as on the carton: whole, semi-skimmed, skimmed, pasteurised, raw, high-heat, uht,
                         homogenised, not-homogenised, cow, goat, sheep, buffalo (joined by commas)
  --fat 3.8  --protein 3.4  --milk-ph 6.65  --milk-temp 5C
  --culture WORDS        half, quarter, 0.7 of the full dose; freeze-dried, frozen, bulk, whey; 1%; spoon, scale
  --packet-for 10L       what one packet treats       --packet-weighs 0.8g
  --rennet WORDS         200 (IMCU per mL, from the label); liquid, powder, tablet; 2months (its age);
                         150,85-265 (a bottle tested in a cup: the strength and the span that
                         "vatside calc rennet-test" gave; its age is then counted from the test)
  --no-calcium
  --pot 15L  --pot-inside 28cm  --burner small|medium|large  --keep-warm open|lid|towels|sink|oven
  --room 20C             also 68F
  --meter                there is a pH meter
  --pieces 125g
  --for-sale  --children
  --units us             US measures first; both are always shown
  --set path=value       any other answer, such as rennet.monthsStored=6; changes.brine-minutes=34 chooses a figure of
                         the make (vatside solve <make> --list names them)
  --confirm path         keep an unusual answer, such as milk.temperatureC

  --start 09:00 | --done-by 17:00, --date 2026-03-02
  --seed 1  --members 500  --lang en-GB|en-US|es
  --json | --text
`;
