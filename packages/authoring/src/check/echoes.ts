import type { DocumentKind } from '../documents/kinds.ts';
import type { Code } from './codes.ts';
import type { Findings } from './findings.ts';
import { kindAt } from './places.ts';
import type { Survey } from './survey.ts';

/** What would be said of everything that refers to a document of a kind, if such a document could not be read. */
const ECHOES: Readonly<Record<DocumentKind, readonly Code[]>> = {
  codes: ['unknown-code-list', 'code-not-permitted'],
  facts: ['unknown-fact', 'unknown-place'],
  choices: ['unknown-parameter', 'unknown-table', 'unknown-topic', 'unknown-place', 'evidence-unused'],
  sources: ['unknown-source'],
  evidence: ['unknown-evidence', 'evidence-unused'],
  'not-carried': [],
  hazards: ['unknown-hazard'],
  accepted: [],
  key: [],
  withdrawal: [],
  'rule-set': [
    'unknown-set',
    'misplaced-document',
    'hazard-control-missing',
    'unknown-fact',
    'unknown-place',
    'unknown-condition',
    'unknown-conclusion',
    'parameter-not-in-uses',
    'stock-not-listed',
    'unlisted-rule',
    'unknown-stock-list',
  ],
  rule: [
    'missing-rule',
    'unknown-rule',
    'vignette-expects-unknown-rule',
    'misplaced-document',
    'evidence-unused',
  ],
  vignettes: ['untested-rule', 'hazard-control-missing'],
  stock: ['unknown-stock-list', 'stock-not-listed'],
  amendment: ['evidence-unused'],
  adoption: [],
  case: [],
  ward: [],
};

/** Parts of a document that others refer into, and whether they are lists or maps; those with `?` may be absent. */
const PARTS: Readonly<
  Partial<Record<DocumentKind, Readonly<Record<string, 'list' | 'map' | 'list?' | 'map?'>>>>
> = {
  codes: { lists: 'map' },
  facts: { facts: 'list' },
  choices: { parameters: 'list', tables: 'list' },
  sources: { sources: 'list' },
  evidence: { evidence: 'list' },
  hazards: { hazards: 'list' },
  'rule-set': {
    conditions: 'map',
    derived: 'list',
    rules: 'list',
    uses: 'list',
    stock: 'list?',
    conclusions: 'list?',
    defaultConclusion: 'map?',
  },
  vignettes: { vignettes: 'list' },
  stock: { options: 'list' },
};

/**
 * Codes that cannot be judged while some document is unreadable, or holds what others refer to in a misspelt or
 * misshapen part: that one mistake is reported, and the hundred references are not reported as if each were one.
 */
export function echoesOf(
  unreadable: readonly { readonly path: string }[],
  documents: Survey['documents'],
  find: Findings,
): ReadonlySet<string> {
  const lost = documents.filter((document) => hasLostPart(document, find));
  const kinds = [...unreadable.map(({ path }) => kindAt(path)), ...lost.map(({ kind }) => kind)];
  return new Set(kinds.flatMap((kind) => (kind === undefined ? [] : ECHOES[kind])));
}

function hasLostPart({ kind, root }: Survey['documents'][number], find: Findings): boolean {
  return Object.entries((kind && PARTS[kind]) ?? {}).some(([key, shape]) => {
    const part = root.at(key);
    if (!part.exists) return find.isMisspelt(root, key) || !shape.endsWith('?');
    return shape.startsWith('list') ? !part.isList : !part.isObject;
  });
}
