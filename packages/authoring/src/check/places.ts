import type { DocumentKind } from '../documents/kinds.ts';

/** Where documents of a kind stand, and the id that must equal the name of their file or folder. */
export const PLACES: Readonly<Record<DocumentKind, readonly [place: RegExp, words: string, id?: string]>> = {
  codes: [/^facts\/codes\.json$/, 'facts/codes.json'],
  facts: [/^facts\/[^/]+\.json$/, 'facts/<group>.json', 'group'],
  choices: [/^choices\/[^/]+\.json$/, 'choices/<topic>.json', 'id'],
  sources: [/^sources\.json$/, 'sources.json'],
  evidence: [/^evidence\/(?!not-carried\.json$)[^/]+\.json$/, 'evidence/<topic>.json', 'topic'],
  'not-carried': [/^evidence\/not-carried\.json$/, 'evidence/not-carried.json'],
  hazards: [/^hazards\.json$/, 'hazards.json'],
  accepted: [/^(hospitals\/[^/]+\/)?accepted\/[^/]+\.json$/, '[hospitals/<id>/]accepted/<set>.json', 'set'],
  key: [/^published\/[^/]+\.key\.json$/, 'published/<key>.key.json', 'id'],
  'rule-set': [/^[^/]+\/ruleset\.json$/, '<set>/ruleset.json', 'id'],
  rule: [/^[^/]+\/[^/]+\.rule\.json$/, '<set>/<rule>.rule.json', 'id'],
  vignettes: [/^[^/]+\/[^/]+\.vignettes\.json$/, '<set>/<rule>.vignettes.json'],
  stock: [/^[^/]+\/stock\/[^/]+\.json$/, '<set>/stock/<kind>.json', 'of'],
  amendment: [/^hospitals\/[^/]+\/amendment\.json$/, 'hospitals/<id>/amendment.json'],
  adoption: [/^hospitals\/[^/]+\/adoption\.json$/, 'hospitals/<id>/adoption.json'],
  case: [/^hospitals\/[^/]+\/cases\/[^/]+\.case\.json$/, 'hospitals/<id>/cases/<name>.case.json'],
  ward: [/^wards\/[^/]+\.json$/, 'wards/<id>.json', 'id'],
  withdrawal: [/^withdrawals\/[^/]+\.json$/, 'withdrawals/<set>-<version>.json'],
};

/** The kind that belongs at a path, for a document that does not say a known one itself. */
export const kindAt = (path: string): DocumentKind | undefined =>
  (Object.keys(PLACES) as DocumentKind[]).find((kind) => PLACES[kind][0].test(path));
