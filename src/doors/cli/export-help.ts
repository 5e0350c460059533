/** What `vatside export` and `vatside share` take. */
export const EXPORT_HELP = `vatside export <make | make.json> --as file|hand-out|recipe|steps|calendar|student [...]
vatside export --record <record.json> --as csv [--batch batch:id]
vatside export --all <folder> [--data folder]

--all writes everything that the store holds into a new folder, in forms that any program reads: events.ndjson (every event,
one a line, with a sum under them; "vatside import" takes it back without difference), batches.csv, readings.csv, the makes
that were written here as JSON, and the schemas of both. The app may go on running meanwhile.

The others hand a make on, to the standard output:
  file       the make itself as JSON, read through and checked (schema: docs/make.schema.json)
  hand-out   one HTML file: opens without a network, prints, runs no script
  student    the pupil's sheet, the same way
  recipe     schema.org Recipe as JSON-LD
  steps      CSV, one row a step
  calendar   iCalendar: what to begin and when
  csv        of a record: one row an entry, what was set right included

  --milk 12L and every other answer of "vatside plan"; 10 L where nothing is said
  --start 09:00 | --done-by 17:00, --date 2026-03-02   for the calendar
  --author NAME  --licence WORDS                       for the recipe
  --lang en-GB|en-US|es
`;

export const SHARE_HELP = `vatside share <make> --milk 4L [--pot 5L --units us ...] [--at http://localhost:4711]

A link that opens Plan with this make, milk, pot and units. The whole question is in the address; no server keeps it.
Takes every answer of "vatside plan". Lots and confirmations of this device stay here.
`;
