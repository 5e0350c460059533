/** Docstrings of `src/science` read as data: what a public function gives, its equation, its ranges, its sources. */
import { readFileSync } from 'node:fs';

export interface FunctionDoc {
  readonly name: string;
  /** First paragraph: what it gives. */
  readonly gives: string;
  /** The paragraphs after it: mechanism and equation. */
  readonly equation: readonly string[];
  readonly params: readonly { readonly name: string; readonly says: string }[];
  readonly returns: string | null;
  readonly valid: string | null;
  readonly uncertainty: string | null;
  readonly assumes: string | null;
  readonly sources: readonly string[];
}

const folder = new URL('../../src/science/', import.meta.url);
const DOCUMENTED = /\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\s*\nexport function (\w+)/g;
const SECTION = /(?=@(?:param|returns|throws|source|example)\b|(?<![\w`])(?:Valid|Uncertainty|Assumes|Shapes): )/;

/** The documented public functions of one module, in its order: those that name a source or a range. */
export function functionDocs(module: string): FunctionDoc[] {
  const code = readFileSync(new URL(module, folder), 'utf8');
  return [...code.matchAll(DOCUMENTED)].flatMap((match) => {
    const [, comment = '', name = ''] = match;
    const doc = readDoc(name, comment);
    return doc.sources.length > 0 || doc.valid !== null ? [doc] : [];
  });
}

/** The comment at the head of a module: what the room is for. */
export function moduleDoc(module: string): string | null {
  const code = readFileSync(new URL(module, folder), 'utf8');
  const match = /^\/\*\*([\s\S]*?)\*\/\s*\n(?:import|export \{|\n)/.exec(code);
  return match === null ? null : oneLine(paragraphsOf(match[1] ?? '').join(' '));
}

function readDoc(name: string, comment: string): FunctionDoc {
  const [head = '', ...sections] = plainLines(comment).join('\n').split(SECTION);
  const [gives = '', ...equation] = head
    .split(/\n\s*\n/)
    .map(oneLine)
    .filter((each) => each !== '');
  const all = (label: RegExp): string[] =>
    sections.filter((each) => label.test(each)).map((each) => oneLine(each.replace(label, '')));
  const first = (label: RegExp): string | null => all(label)[0] ?? null;
  return {
    name,
    gives,
    equation,
    params: all(/^@param\s+/).map((each) => {
      const [, path = each, says = ''] = /^(\S+)\s*(.*)$/.exec(each) ?? [];
      return { name: path, says };
    }),
    returns: first(/^@returns\s+/),
    valid: first(/^Valid:\s+/),
    uncertainty: first(/^Uncertainty:\s+/),
    assumes: first(/^Assumes:\s+/),
    sources: all(/^@source\s+/).flatMap(numbered),
  };
}

/** A source that lists several, `1. … 2. …`, as its parts. */
function numbered(text: string): string[] {
  if (!text.startsWith('1. ')) return [text];
  const parts: string[] = [];
  let rest = text.slice(3);
  for (let next = 2; ; next++) {
    const at = rest.indexOf(` ${next}. `);
    if (at === -1) return [...parts, rest];
    parts.push(rest.slice(0, at));
    rest = rest.slice(at + ` ${next}. `.length);
  }
}

const plainLines = (comment: string): string[] => comment.split('\n').map((line) => line.replace(/^\s*\*? ?/, ''));
const paragraphsOf = (comment: string): string[] =>
  plainLines(comment)
    .join('\n')
    .split(/\n\s*\n/)
    .map(oneLine)
    .filter((each) => each !== '');
const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();
