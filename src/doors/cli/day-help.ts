/** What `vatside day` takes. */
export const DAY_HELP = `vatside day <make>=<milk>[x<pots>] ... [--from 09:00] [--to 17:00] [...]

  Several makes or pots in one kitchen: when each begins, on which burner, and what to have ready meanwhile.
  stretched-ball=12Lx2   two pots of 12 L each

  When: --from 09:00          as soon as it can be from then on (09:00 if neither is said)
        --to 17:00            back from when all must be done, or within the hours where both are said
        --date 2026-03-02     today if left out, or tomorrow where that time of today has passed
  Kit:  --hands 1             people who help       --burners 2      --kettles 1 (--kettle-litres 1.7)
        --bowls 3  --presses 1  --brine-tubs 1      as many as are wanted if left out
        --pupils 6            more hands from --from to --to
        --cold 06:00          the curd is made from then on, kept cold, and worked within the hours
                              (-15:00 for three in the afternoon of the day before)
  Milk and kitchen as for one make: --milk-type whole,pasteurised  --burner medium  --set path=value ...

  --members N   equally likely courses of each make (200)    --seed N
  --language en-GB|en-US
  --json | --text
`;
