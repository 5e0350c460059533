import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isNode, nodesIn, sourceFiles, textOf, treeOf, type Node } from './said-in-code.ts';

/** No words in the code of a screen: all of them are in the catalogues, where they can be said in another language. */
interface Found {
  readonly file: string;
  readonly where: string;
  readonly text: string;
}

/** Attributes that carry words to eyes, fingers or ears. */
const SEEN = /^(aria-(label|valuetext|roledescription|description|placeholder)|title|placeholder|alt|label|hint|caption|heading|text|children|error|summary)$/; // prettier-ignore

const nameOf = (node: unknown): string => (isNode(node) && typeof node['name'] === 'string' ? node['name'] : '');
/** An address to copy is said the same everywhere. */
const ADDRESS = /^\{0\}\/api\/\S*$/;
const hasWords = (text: string): boolean => !ADDRESS.test(text) && /\p{L}/u.test(text.replaceAll(/\{\d\}/g, ''));
/** A choice between two texts is two texts. */
const shown = (node: unknown): string[] => {
  if (!isNode(node)) return [];
  if (node.type === 'JSXExpressionContainer') return shown(node['expression']);
  if (node.type === 'ConditionalExpression') return [...shown(node['consequent']), ...shown(node['alternate'])];
  if (node.type === 'LogicalExpression') return [...shown(node['left']), ...shown(node['right'])];
  const text = textOf(node);
  return text === null ? [] : [text];
};

/** What an element of a screen shows by itself: text between its tags, and attributes that are read. */
function ofElements(file: string, node: Node): Found[] {
  const found = (where: string, texts: readonly string[]): Found[] => texts.filter(hasWords).map((text) => ({ file, where, text })); // prettier-ignore
  if (node.type === 'JSXText') return found('text', [String(node['value']).trim()]);
  if (node.type === 'JSXAttribute' && SEEN.test(nameOf(node['name']))) return found(nameOf(node['name']), shown(node['value'])); // prettier-ignore
  if (node.type !== 'JSXElement' && node.type !== 'JSXFragment') return [];
  const children: readonly unknown[] = Array.isArray(node['children']) ? node['children'] : [];
  return found('child', children.filter((one) => isNode(one) && one.type === 'JSXExpressionContainer').flatMap(shown));
}

/** What is told when something breaks: it is shown as it is, or as the reason inside a sentence. */
function ofErrors(file: string, node: Node): Found[] {
  const thrown = node.type === 'NewExpression' && /^(Error|UsageError)$/.test(nameOf(node['callee']));
  const [first] = Array.isArray(node['arguments']) ? (node['arguments'] as readonly unknown[]) : [];
  const isProblem = node.type === 'CallExpression' && isNode(node['callee']) && nameOf(node['callee']['property']) === 'problem'; // prettier-ignore
  return thrown || isProblem
    ? shown(first)
        .filter(hasWords)
        .map((text) => ({ file, where: 'error', text }))
    : [];
}

/** Faults of the program itself: nobody who uses it ever reads them. */
const OF_THE_PROGRAM = /^(No log has been opened around this screen\.|no make is bundled|index\.html has no place for the app|useReader needs a ReaderProvider above it)$/; // prettier-ignore

const screens = sourceFiles('src/doors/web').filter((file) => file.endsWith('.tsx'));
const book = new Set(
  readdirSync('words/es/sentences').flatMap((file) => Object.keys(JSON.parse(readFileSync(`words/es/sentences/${file}`, 'utf8')) as object)), // prettier-ignore
);

describe('a screen', () => {
  it('says nothing that is not in the catalogues', () => {
    const found = screens.flatMap((file) => nodesIn(treeOf(file)).flatMap((node) => ofElements(file, node)));
    expect(screens.length).toBeGreaterThan(140);
    expect(found).toEqual([]);
  });

  it('says why something broke in words that the Spanish book has', () => {
    const files = sourceFiles('src/doors/web').filter((file) => /new Error\(|#problem\(/.test(readFileSync(file, 'utf8'))); // prettier-ignore
    const found = files.flatMap((file) => nodesIn(treeOf(file)).flatMap((node) => ofErrors(file, node)));
    expect(found.length).toBeGreaterThan(5);
    expect(found.filter(({ text }) => !book.has(text) && !OF_THE_PROGRAM.test(text))).toEqual([]);
  });

  it('would be found out', () => {
    const of = (code: string): string[] => nodesIn(treeOf('screen.tsx', code)).flatMap((node) => ofElements('screen.tsx', node)).map(({ text }) => text); // prettier-ignore
    expect(of('const a = <p>Cut it now</p>;')).toEqual(['Cut it now']);
    expect(of('const a = <p>{late ? `${n} min late` : say("vat:x")}</p>;')).toEqual(['{0} min late']);
    expect(of('const a = <button aria-label="Close">{"\u00d7"}</button>;')).toEqual(['Close']);
    expect(of('const a = <p className="numerals">{say("vat:x")} {write.clock(at)} / 3</p>;')).toEqual([]);
  });
});

describe('the command', () => {
  it('prints no sentence of its own: only what it is asked with is named in English, as its flags are', () => {
    const files = sourceFiles('src/doors/cli');
    const printed = files.flatMap((file) =>
      nodesIn(treeOf(file)).flatMap((node): Found[] => {
        if (node.type !== 'CallExpression' || !isNode(node['callee']) || nameOf(node['callee']['object']) !== 'world') return []; // prettier-ignore
        const how = nameOf(node['callee']['property']);
        const [first] = Array.isArray(node['arguments']) ? (node['arguments'] as readonly unknown[]) : [];
        return how === 'out' ? shown(first).filter((text) => /\p{L}{3,} \p{L}{2,}/u.test(text)).map((text) => ({ file, where: how, text })) : []; // prettier-ignore
      }),
    );
    expect(files.length).toBeGreaterThan(20);
    expect(printed).toEqual([]);
  });
});
