import type { Node } from 'jsonc-parser';
import { childPointer } from './pointer.ts';

/** Keys that reach into the prototype of a JavaScript object wherever a value is copied key by key. */
export const FORBIDDEN: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

export interface KeyProblem {
  readonly code: 'forbidden-key' | 'duplicate-key';
  /** The key's own token. */
  readonly node: Node;
  readonly pointer: string;
  readonly message: string;
}

/** Finds keys that are forbidden anywhere and keys that stand twice in one object. */
export function guardKeys(root: Node): KeyProblem[] {
  const problems: KeyProblem[] = [];
  const visit = (node: Node, pointer: string): void => {
    const seen = new Set<string>();
    node.children?.forEach((child, index) => {
      if (child.type !== 'property') {
        visit(child, childPointer(pointer, index));
        return;
      }
      const [key, value] = child.children!;
      const name: string = key!.value;
      const at = { node: key!, pointer: childPointer(pointer, name) };
      if (FORBIDDEN.has(name)) {
        problems.push({
          ...at,
          code: 'forbidden-key',
          message: `the key \`${name}\` is not allowed in any document`,
        });
      } else if (seen.has(name)) {
        problems.push({
          ...at,
          code: 'duplicate-key',
          message: `the key \`${name}\` stands twice in one object`,
        });
      }
      seen.add(name);
      if (value) visit(value, at.pointer);
    });
  };
  visit(root, '');
  return problems;
}
