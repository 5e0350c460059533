import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseAst } from 'vite';

/** A sentence that code carries in UK English and people read: what does not fit, what would do, what was assumed. */
export interface SaidInCode {
  readonly file: string;
  /** With `{0}`, `{1}` where something is put in. */
  readonly text: string;
}

export type Node = { readonly type: string } & Readonly<Record<string, unknown>>;
export const isNode = (one: unknown): one is Node => typeof one === 'object' && one !== null && 'type' in one;

/** Names of properties and lists whose texts are shown to people. */
const SHOWN = /^(remedy|expected|because|instead|words|answers|assumptions)$/;
/** Steps that the make language adds by itself are told like a make's own. */
const STEP_FILE = /departure\.ts$/;
const STEP = /^(name|how|done|why)$/;

export const sourceFiles = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.tsx?$/.test(path) && !/\.test\./.test(path))
    .map((path) => join(folder, path));

/** @param code what stands in the file; read from it where left out */
export const treeOf = (file: string, code = readFileSync(file, 'utf8')): Node => {
  const tree: unknown = parseAst(code, { lang: file.endsWith('x') ? 'tsx' : 'ts' }, file);
  if (!isNode(tree)) throw new Error(`${file} cannot be read`);
  return tree;
};

/** Every node beneath one, itself first. */
export function nodesIn(root: Node): readonly Node[] {
  const found: Node[] = [];
  const open: unknown[] = [root];
  while (open.length > 0) {
    const next = open.pop();
    if (Array.isArray(next)) open.push(...(next as unknown[]));
    else if (isNode(next)) {
      found.push(next);
      for (const key in next) if (typeof next[key] === 'object') open.push(next[key]);
    }
  }
  return found;
}

/** The text of a string or a template, with places for what is put in; null for anything else. */
export function textOf(node: unknown): string | null {
  if (!isNode(node)) return null;
  if (node.type === 'Literal') return typeof node['value'] === 'string' ? node['value'] : null;
  if (node.type !== 'TemplateLiteral' || !Array.isArray(node['quasis'])) return null;
  return node['quasis'].map((part: { value: { cooked: string } }, at: number) => (at === 0 ? '' : `{${at - 1}}`) + part.value.cooked).join(''); // prettier-ignore
}

/** The texts that an expression may come to: both branches of a choice, every item of a list. */
function textsOf(node: unknown): string[] {
  if (!isNode(node)) return [];
  const text = textOf(node);
  if (text !== null) return [text];
  switch (node.type) {
    case 'ConditionalExpression':
      return [...textsOf(node['consequent']), ...textsOf(node['alternate'])];
    case 'ArrayExpression':
      return Array.isArray(node['elements']) ? node['elements'].flatMap(textsOf) : [];
    case 'SpreadElement':
      return textsOf(node['argument']);
    case 'LogicalExpression':
      return [...textsOf(node['left']), ...textsOf(node['right'])];
    default:
      return [];
  }
}

const nameOf = (node: unknown): string => {
  const name = isNode(node) ? (node['name'] ?? node['value']) : null;
  return typeof name === 'string' ? name : '';
};

/** Everything that the code of some folders says. */
export function saidInCode(folders: readonly string[]): readonly SaidInCode[] {
  const mayHold = /\b(remedy|expected|because|instead|words|answers|assumptions)\b/;
  const files = folders.flatMap(sourceFiles).filter((file) => mayHold.test(readFileSync(file, 'utf8')) || STEP_FILE.test(file)); // prettier-ignore
  return files.flatMap((file) =>
    nodesIn(treeOf(file)).flatMap((node): SaidInCode[] => {
      const [name, value] =
        node.type === 'Property'
          ? [nameOf(node['key']), node['value']]
          : node.type === 'VariableDeclarator'
            ? [nameOf(node['id']), node['init']]
            : ['', null];
      const isShown = SHOWN.test(name) || (STEP.test(name) && STEP_FILE.test(file));
      return isShown ? textsOf(value).map((text) => ({ file, text })) : [];
    }),
  );
}
