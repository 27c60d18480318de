import type { z } from 'zod';
import { type DocumentKind, documentKinds, documentSchemas, urnOf } from '../documents/kinds.ts';
import type { Cursor } from './cursor.ts';
import type { Findings } from './findings.ts';
import { issuesOf, reportIssues } from './issues.ts';
import { didYouMean } from './nearest.ts';

/**
 * Places with nodes of one key, or with values whose shape depends on a fact: the check reads those itself, since a
 * union answers one slip with a pile of errors. Patterns of pointers, by kind.
 */
const RULE_CONDITIONS = '(scope|when|expect|excludes|remarks|prefers/options)';
export const OWN: Readonly<Record<DocumentKind, RegExp | undefined>> = {
  codes: undefined,
  facts: /^\/facts\/\d+\/(item\/[^/]+\/)?from$/,
  choices: undefined,
  sources: undefined,
  evidence: undefined,
  'not-carried': undefined,
  hazards: undefined,
  accepted: undefined,
  key: /^\/(base|cases\/\d+)\/(facts\/[^/]+|chosen\/[^/]+)$/,
  'rule-set': /^\/(scope|population\/when|conditions\/[^/]+|derived\/\d+\/(item\/[^/]+\/)?from)$/,
  rule: new RegExp(`^/${RULE_CONDITIONS}$`),
  vignettes: /^\/(base|vignettes\/\d+)\/(facts\/[^/]+|chosen\/[^/]+)$/,
  stock: /^\/options\/\d+\/facts\/[^/]+$/,
  amendment: /^\/(facts\/\d+\/(item\/[^/]+\/)?from|amends\/\d+\/changes\/\d+)$/,
  adoption: undefined,
  case: /^\/(facts|chosen)\/[^/]+$/,
  ward: /^\/stages\/\d+\/facts\/[^/]+\/oneOf\/\d+\/value$/,
  withdrawal: undefined,
};

/** Conditions and stock values inside a change of an amendment, below the change. */
export const OWN_IN_CHANGE = new RegExp(
  `^/((add|replace)/${RULE_CONDITIONS}|stock/options/\\d+/facts/[^/]+|set/[^/]+)$`,
);

/** Whether the document has the structure of its kind: keys, required keys, shapes, grammar of ids. */
export function checkStructure(
  root: Cursor,
  kind: DocumentKind | undefined,
  stated: boolean,
  find: Findings,
): void {
  // Where the path tells the kind, a missing or misspelt `$schema` is a matter of keys.
  if (!stated && (kind === undefined || root.has('$schema'))) reportUnknownKind(root, find);
  if (kind === undefined) return;
  const schema: z.ZodType = documentSchemas[kind];
  reportIssues(issuesOf(schema, root.value), root, schema, OWN[kind], find);
}

function reportUnknownKind(root: Cursor, find: Findings): void {
  const kinds = documentKinds.map(urnOf);
  const stated = root.at('$schema');
  const received = stated.text;
  if (received === undefined) {
    const message = 'the document does not say its kind under `$schema`';
    find.report('unknown-kind', stated.exists ? stated : root, { message, expected: kinds.join(', ') });
    return;
  }
  const message = `\`${received}\` is no kind of document`;
  find.report('unknown-kind', stated, {
    message,
    received,
    expected: kinds.join(', '),
    ...didYouMean(received, kinds),
  });
}
