import type { z } from 'zod';
import { acceptedDocument } from './accepted.ts';
import { adoptionDocument } from './adoption.ts';
import { amendmentDocument } from './amendment.ts';
import { caseDocument } from './case.ts';
import { choicesDocument } from './choices.ts';
import { codesDocument } from './codes.ts';
import { evidenceDocument } from './evidence.ts';
import { factsDocument } from './facts.ts';
import { hazardsDocument } from './hazards.ts';
import { keyDocument } from './key.ts';
import { notCarriedDocument } from './notCarried.ts';
import { ruleDocument } from './rule.ts';
import { ruleSetDocument } from './ruleSet.ts';
import { sourcesDocument } from './sources.ts';
import { stockDocument } from './stock.ts';
import { vignettesDocument } from './vignettes.ts';
import { wardDocument } from './ward.ts';
import { withdrawalDocument } from './withdrawal.ts';

/** Every kind of document by its name in `urn:dwellset:<kind>:1`. */
export const documentSchemas = {
  codes: codesDocument,
  facts: factsDocument,
  choices: choicesDocument,
  sources: sourcesDocument,
  evidence: evidenceDocument,
  'not-carried': notCarriedDocument,
  hazards: hazardsDocument,
  accepted: acceptedDocument,
  key: keyDocument,
  'rule-set': ruleSetDocument,
  rule: ruleDocument,
  vignettes: vignettesDocument,
  stock: stockDocument,
  amendment: amendmentDocument,
  adoption: adoptionDocument,
  case: caseDocument,
  ward: wardDocument,
  withdrawal: withdrawalDocument,
} as const;

export type DocumentKind = keyof typeof documentSchemas;
export type DocumentOf<K extends DocumentKind> = z.infer<(typeof documentSchemas)[K]>;

export const documentKinds = Object.keys(documentSchemas) as DocumentKind[];

export const urnOf = (kind: DocumentKind): string => `urn:dwellset:${kind}:1`;

const kindsByUrn: ReadonlyMap<string, DocumentKind> = new Map(
  documentKinds.map((kind) => [urnOf(kind), kind]),
);

/** The kind that a document's `$schema` names, if it is one of ours. */
export function kindOf(value: unknown): DocumentKind | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const urn = (value as { $schema?: unknown }).$schema;
  return typeof urn === 'string' ? kindsByUrn.get(urn) : undefined;
}
