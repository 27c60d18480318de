/** What a link can lead to. */
export type Target =
  | 'set'
  | 'rule'
  | 'why'
  | 'term'
  | 'stock'
  | 'choice'
  | 'table'
  | 'evidence'
  | 'source'
  | 'hazard'
  | 'fact'
  | 'codes';

/**
 * The id of an element: `rule:removal/no-reason`. Whatever an id of ours cannot hold is written as its code, so that
 * two names never share an id and none breaks a link.
 */
export const anchor = (target: Target, ...names: readonly string[]): string =>
  `${target}:${names
    .map((name) => name.replace(/[^A-Za-z0-9.~-]/gu, (one) => `_${one.codePointAt(0)?.toString(16)}_`))
    .join('/')}`;
