import { type Node, type ParseError, parseTree } from 'jsonc-parser';
import type { Diagnostic, Range } from '../diagnostic.ts';
import { guardKeys } from './keys.ts';
import { childPointer, parentPointer } from './pointer.ts';
import { Positions } from './positions.ts';
import { firstBeyondDepth, isTooLarge, MAXIMUM_BYTES, MAXIMUM_DEPTH } from './size.ts';
import { syntaxProblem } from './syntax.ts';

/**
 * `value`: the whole value. `head`: its first token, so that a mark on an object is one bracket wide.
 * `key`: the name it stands under, or its head where it has none.
 */
export type Part = 'value' | 'head' | 'key';

/** One document: its text, and its value where nothing is wrong with the text itself. */
export interface Source {
  readonly path: string;
  readonly text: string;
  /** Plain JSON without duplicate or forbidden keys; undefined where `problems` is not empty. */
  readonly value: unknown;
  readonly problems: readonly Diagnostic[];
  /** Where a value stands; a pointer to nothing gives its nearest ancestor. */
  locate(pointer: string, part?: Part): Range;
  /** Where a stretch of a text (or of a key) stands, in characters of the text itself, escapes aside. */
  locateWithin(pointer: string, start: number, end: number, part?: 'value' | 'key'): Range;
}

/** Reads strict JSON (RFC 8259) and keeps every position. Never throws. */
export function parseSource(path: string, text: string): Source {
  const positions = new Positions(text);
  const problem = (code: string, offset: number, length: number, rest: Partial<Diagnostic>): Diagnostic => ({
    code,
    severity: 'error',
    path,
    pointer: '',
    range: positions.range(offset, length),
    message: '',
    ...rest,
  });
  const refused = (problems: readonly Diagnostic[]): Source => ({
    path,
    text,
    value: undefined,
    problems,
    locate: () => positions.range(0, 0),
    locateWithin: () => positions.range(0, 0),
  });

  if (isTooLarge(text)) {
    const message = `the document is larger than ${MAXIMUM_BYTES} bytes and is not read`;
    return refused([problem('too-large', 0, 0, { message, expected: `at most ${MAXIMUM_BYTES} bytes` })]);
  }
  const deep = firstBeyondDepth(text);
  if (deep !== undefined) {
    const message = `this is nested more than ${MAXIMUM_DEPTH} deep and is not read`;
    return refused([problem('too-deep', deep, 1, { message, expected: `at most ${MAXIMUM_DEPTH} levels` })]);
  }
  const errors: ParseError[] = [];
  const root = parseTree(text, errors, { disallowComments: true, allowTrailingComma: false });
  const broken = syntaxProblem(text, errors, root);
  if (broken !== undefined || root === undefined) {
    const { offset, length, message, expected } = broken ?? { offset: 0, length: 0, message: 'nothing here' };
    return refused([problem('broken-json', offset, length, { message, ...(expected && { expected }) })]);
  }
  const keys = guardKeys(root).map(({ code, node, pointer, message }) =>
    problem(code, node.offset, node.length, { pointer, message, received: String(node.value) }),
  );
  return {
    path,
    text,
    value: keys.length > 0 ? undefined : JSON.parse(text),
    problems: keys,
    ...locators(text, root, positions),
  };
}

function locators(text: string, root: Node, positions: Positions): Pick<Source, 'locate' | 'locateWithin'> {
  let nodes: Map<string, Node> | undefined;
  const find = (pointer: string): Node => {
    nodes ??= indexNodes(root);
    let known = pointer;
    while (known !== '' && !nodes.has(known)) known = parentPointer(known);
    return nodes.get(known) ?? root;
  };
  const token = (node: Node, part: Part): Node =>
    (part === 'key' && node.parent?.type === 'property' && node.parent.children?.[0]) || node;
  return {
    locate: (pointer, part = 'value') => {
      const { type, offset, length } = token(find(pointer), part);
      const wide = part === 'value' || (type !== 'object' && type !== 'array');
      return positions.range(offset, wide ? length : 1);
    },
    locateWithin: (pointer, start, end, part = 'value') => {
      const { offset, length } = token(find(pointer), part);
      const raw = text.slice(offset, offset + length);
      const from = rawOffset(raw, start);
      return positions.range(offset + from, rawOffset(raw, end) - from);
    },
  };
}

/** Offset in a quoted text, as written, of a character of the text itself. */
function rawOffset(raw: string, character: number): number {
  let at = 1;
  for (let seen = 0; seen < character && at < raw.length - 1; seen += 1) {
    at += raw[at] !== '\\' ? 1 : raw[at + 1] === 'u' ? 6 : 2;
  }
  return at;
}

function indexNodes(root: Node): Map<string, Node> {
  const nodes = new Map<string, Node>();
  const visit = (node: Node, pointer: string): void => {
    nodes.set(pointer, node);
    node.children?.forEach((child, index) => {
      if (child.type !== 'property') visit(child, childPointer(pointer, index));
      else if (child.children?.[1]) visit(child.children[1], childPointer(pointer, child.children[0]!.value));
    });
  };
  visit(root, '');
  return nodes;
}
