import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll } from 'vitest';

/** A policies folder small enough to see through: one rule, two facts, one source, one hospital. All invented. */
const DOCUMENTS: Readonly<Record<string, unknown>> = {
  'facts/codes.json': {
    $schema: 'urn:dwellset:codes:1',
    lists: { stages: { 'in-place': 'the catheter is in place', removed: 'the catheter is out' } },
  },
  'facts/catheter.json': {
    $schema: 'urn:dwellset:facts:1',
    group: 'catheter',
    order: 1,
    title: 'The catheter',
    facts: [
      {
        id: 'catheter.stage',
        type: 'code',
        codes: 'stages',
        title: 'stage of care',
        question: 'Is the catheter in place?',
      },
      {
        id: 'catheter.hours-in',
        type: 'number',
        unit: 'h',
        step: 1,
        decimals: 0,
        limits: [0, 100000],
        title: 'hours in place',
        question: 'For how many hours has it been in place?',
      },
    ],
  },
  'choices/dwell.json': {
    $schema: 'urn:dwellset:choices:1',
    id: 'dwell',
    version: '0.1.0',
    title: 'Dwell',
    parameters: [
      {
        id: 'dwell.longest',
        type: 'number',
        unit: 'h',
        step: 1,
        range: [24, 96],
        title: 'longest time in place',
        default: 48,
        cautious: 'lower',
        positions: [
          { value: 48, evidence: ['inv-01'] },
          { value: 72, evidence: ['inv-01'] },
        ],
      },
    ],
    tables: [],
  },
  'sources.json': {
    $schema: 'urn:dwellset:sources:1',
    sources: [
      {
        id: 'invented',
        kind: 'teaching',
        body: 'Society of Invented Care',
        title: 'Short stays',
        year: 2024,
      },
    ],
  },
  'evidence/dwell.json': {
    $schema: 'urn:dwellset:evidence:1',
    topic: 'dwell',
    evidence: [
      {
        id: 'inv-01',
        statement: 'A catheter is taken out as soon as it is no longer needed.',
        from: [{ source: 'invented', locator: 'page 2', grade: 'ungraded', status: 'memory' }],
      },
    ],
  },
  'hazards.json': { $schema: 'urn:dwellset:hazards:1', hazards: [] },
  'dwell/ruleset.json': {
    $schema: 'urn:dwellset:rule-set:1',
    id: 'dwell',
    version: '0.1.0',
    status: 'draft',
    language: 'en',
    title: 'Time in place',
    intendedUse: 'To try out commands.',
    users: 'Nobody',
    exclusions: [],
    limits: [],
    shape: 'advice',
    scope: { fact: 'catheter.stage', operator: 'equal', value: 'in-place' },
    uses: ['dwell'],
    conditions: {},
    derived: [],
    rules: ['too-long'],
  },
  'dwell/too-long.rule.json': {
    $schema: 'urn:dwellset:rule:1',
    id: 'too-long',
    title: 'In place for long',
    when: { fact: 'catheter.hours-in', operator: 'greaterThan', value: { parameter: 'dwell.longest' } },
    advice: { summary: 'Consider taking the catheter out', indicator: 'warning' },
    because: 'Every further day adds to the risk of infection.',
    evidence: ['inv-01'],
  },
  'dwell/too-long.vignettes.json': {
    $schema: 'urn:dwellset:vignettes:1',
    base: {
      asOf: '2026-06-01T09:00:00Z',
      timeZone: 'Europe/London',
      facts: { 'catheter.stage': 'in-place' },
    },
    vignettes: [
      {
        id: 'three-days',
        title: 'three days in place',
        facts: { 'catheter.hours-in': { value: 72, unit: 'h' } },
        expect: { rules: { 'too-long': 'applies' } },
      },
      {
        id: 'not-charted',
        title: 'time in place not charted',
        expect: { rules: { 'too-long': 'undetermined' }, ask: ['catheter.hours-in'] },
      },
      {
        id: 'one-day',
        title: 'one day in place',
        facts: { 'catheter.hours-in': { value: 24, unit: 'h' } },
        expect: { rules: { 'too-long': 'does-not-apply' } },
      },
    ],
  },
  'hospitals/thornleigh/adoption.json': {
    $schema: 'urn:dwellset:adoption:1',
    id: 'thornleigh',
    organisation: 'Thornleigh Infirmary',
    approverRole: 'chief nurse',
    date: '2026-05-01',
    reviewDue: '2027-05-01',
    releases: [{ id: 'dwell', version: '0.1.0', digest: '0'.repeat(64) }],
  },
  'hospitals/thornleigh/amendment.json': {
    $schema: 'urn:dwellset:amendment:1',
    id: 'thornleigh',
    version: '1.0.0',
    organisation: 'Thornleigh Infirmary',
    approverRole: 'chief nurse',
    date: '2026-05-01',
    amends: [
      {
        set: 'dwell',
        version: '0.1.0',
        digest: '0'.repeat(64),
        changes: [{ set: { 'dwell.longest': 72 }, reason: 'three rounds a week' }],
      },
    ],
  },
};

/** A patient in whom the one rule applies. */
export const CASE = {
  $schema: 'urn:dwellset:case:1',
  id: 'opaque-id-7',
  asOf: '2026-06-01T09:00:00+01:00',
  timeZone: 'Europe/London',
  facts: { 'catheter.stage': 'in-place', 'catheter.hours-in': { value: 60, unit: 'h' } },
} as const;

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** Writes documents into a new folder; values that are text stay as they are, to hold what is no JSON. */
export function write(documents: Readonly<Record<string, unknown>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'dwellset-'));
  folders.push(folder);
  for (const [path, value] of Object.entries(documents)) {
    const file = join(folder, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, typeof value === 'string' ? value : `${JSON.stringify(value, null, 2)}\n`);
  }
  return folder;
}

/** The small policies as a new folder, with changes. */
export const policies = (changes: Readonly<Record<string, unknown>> = {}): string =>
  write({ ...DOCUMENTS, ...changes });

export const document = (path: string): Record<string, unknown> =>
  structuredClone(DOCUMENTS[path]) as Record<string, unknown>;
