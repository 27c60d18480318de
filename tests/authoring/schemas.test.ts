import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import {
  type DocumentKind,
  documentKinds,
  documentSchemas,
  jsonSchemaFiles,
  kindOf,
  readLibrary,
  urnOf,
} from '@dwellset/authoring';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amendment, filesOf, localPolicy, policy } from './fixture.ts';
import { doc, rule } from './invented/documents.ts';
import { mutated } from './mutations.ts';

const committed = resolve(import.meta.dirname, '../../packages/authoring/schemas');
const policies = resolve(import.meta.dirname, '../../policies');

const ajv = new Ajv2020({ strict: true, allErrors: true });
const validators = new Map<DocumentKind, ValidateFunction>(
  documentKinds.map((kind) => [kind, ajv.compile(jsonSchemaFiles().get(`${kind}.schema.json`)!)]),
);
const byZod = (kind: DocumentKind, value: unknown): boolean => documentSchemas[kind].safeParse(value).success;
const byAjv = (kind: DocumentKind, value: unknown): boolean => validators.get(kind)!(value);

const shipped = new Map(
  readdirSync(policies, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.json'))
    .map((path) => [path, readFileSync(join(policies, path), 'utf8')] as const),
);
const everyChange = amendment(
  {
    removal: [
      { set: { 'dwell.longest': 7, 'dwell.by-material/latex/days': null }, evidence: ['hollow-says'] },
      { switchOff: 'bypassing' },
      { replace: rule('review', {}) },
      { reword: { rule: 'review', title: 'Other' } },
      { add: rule('local', { when: { not: { all: [{ condition: 'overdue' }] } } }), after: 'review' },
      { addText: { rule: 'overdue', detail: ['More.'] } },
      { raise: { rule: 'overdue', indicator: 'critical' } },
      {
        stock: {
          of: 'catheter',
          title: 'Own',
          options: [{ id: 'own', title: 'Own', facts: { 'option.size': null } }],
        },
      },
    ],
  },
  localPolicy,
);
const withdrawn = doc('withdrawal', {
  id: 'removal',
  version: '0.0.9',
  digest: '0'.repeat(64),
  date: '2030-01-01',
  approverRole: 'Editor',
  reason: 'It counted wrongly.',
  replacement: '0.1.0',
});
const invented = filesOf({
  ...policy(),
  'hospitals/hollow/amendment.json': everyChange,
  'withdrawals/removal-0.0.9.json': withdrawn,
});
const documents = [...readLibrary(shipped).documents, ...readLibrary(invented).documents];

describe('the committed JSON Schemas', () => {
  it('are one for each kind of document', () => {
    const names = readdirSync(committed).filter((name) => name.endsWith('.json'));
    expect(names.sort()).toEqual([...jsonSchemaFiles().keys()].sort());
  });

  it.each([...jsonSchemaFiles()])('%s is what the document shapes generate', (name, schema) => {
    // Where this fails: npm run build, node packages/authoring/schemas/write.mjs, npm run format.
    expect(JSON.parse(readFileSync(join(committed, name), 'utf8'))).toEqual(schema);
  });

  it.each(documentKinds)('that of %s is named by the URN its documents state', (kind) => {
    expect(jsonSchemaFiles().get(`${kind}.schema.json`)).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      $id: urnOf(kind),
      type: 'object',
      additionalProperties: false,
    });
  });
});

describe('zod and ajv', () => {
  it('both accept every shipped document', () => {
    expect(shipped.size).toBeGreaterThan(0);
    for (const { path, kind, source } of readLibrary(shipped).documents) {
      expect(kind, path).toBeDefined();
      expect([byZod(kind!, source.value), byAjv(kind!, source.value)], path).toEqual([true, true]);
    }
  });

  it('between them see every kind of document', () => {
    expect([...new Set(documents.map(({ kind }) => kind))].sort()).toEqual([...documentKinds].sort());
  });

  it('agree on documents with mistakes in them', () => {
    const seed = Number(process.env.SEED ?? 20_261_125);
    console.info(`documents with mistakes: seed ${seed}`);
    const seen = { accepted: 0, refused: 0 };
    const originals = documentKinds.map((kind) =>
      fc.constantFrom(
        ...documents.filter((document) => document.kind === kind).map(({ source }) => source.value),
      ),
    );
    fc.assert(
      fc.property(fc.oneof(...originals).chain(mutated), ({ value, changes }) => {
        const kind = kindOf(value);
        if (kind === undefined) return;
        const [zod, ajvs] = [byZod(kind, value), byAjv(kind, value)];
        seen[zod ? 'accepted' : 'refused'] += 1;
        expect(ajvs, `${kind}: ${changes.join('; ')}`).toBe(zod);
      }),
      { seed, numRuns: 3000 },
    );
    expect(seen.accepted).toBeGreaterThan(200);
    expect(seen.refused).toBeGreaterThan(1000);
    expect(seen.accepted + seen.refused).toBeGreaterThanOrEqual(2000);
  });
});
