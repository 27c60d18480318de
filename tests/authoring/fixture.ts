import { buildRelease, type Library, readLibrary } from '@dwellset/authoring';

type Json = Record<string, unknown>;
const doc = (kind: string, rest: Json): Json => ({ $schema: `urn:dwellset:${kind}:1`, ...rest });

export const rule = (id: string, rest: Json): Json => ({
  id,
  title: `Title of ${id}`,
  advice: { summary: `Summary of ${id}.`, detail: ['Step one.'], indicator: 'warning' },
  because: `Reason of ${id}.`,
  evidence: ['ev-review'],
  ...rest,
});

const daysIn = (operator: string, parameter: string): Json => ({
  fact: 'catheter.days-in',
  operator,
  value: { parameter },
});

const set = (id: string, rest: Json): Json =>
  doc('rule-set', {
    id,
    version: '0.1.0',
    status: 'draft',
    language: 'en',
    title: `Set ${id}`,
    intendedUse: 'Support to registered practitioners',
    users: 'Ward nurses',
    exclusions: [],
    limits: [],
    uses: ['dwell'],
    conditions: {},
    derived: [],
    ...rest,
  });

/**
 * A small invented policy: an advice set (`removal`), a decision set (`reason`) and a choice set (`equipment`),
 * each with a locked rule, and one hospital with an amendment that holds no changes yet.
 */
export function policy(): Record<string, Json> {
  return {
    'facts/codes.json': doc('codes', {
      lists: {
        stages: { considered: 'Considered', 'in-place': 'In place', removed: 'Removed' },
        materials: { latex: 'Latex', silicone: 'Silicone', pvc: 'PVC' },
        signs: { fever: 'Fever', pain: 'Pain', 'new-confusion': 'New confusion' },
      },
      extensible: ['materials'],
    }),
    'facts/allergy.json': doc('facts', {
      group: 'allergy',
      order: 2,
      title: 'Allergies',
      facts: [
        {
          id: 'allergy.latex',
          type: 'boolean',
          title: 'Latex allergy',
          question: 'Is there a latex allergy?',
        },
      ],
    }),
    'facts/catheter.json': doc('facts', {
      group: 'catheter',
      order: 1,
      title: 'Catheter',
      facts: [
        {
          id: 'catheter.stage',
          type: 'code',
          codes: 'stages',
          title: 'Stage',
          question: 'What stage is it at?',
        },
        {
          id: 'catheter.removed-at',
          type: 'date-time',
          notBefore: 'catheter.inserted-at',
          title: 'Removed',
          question: 'When was it removed?',
        },
        {
          id: 'catheter.inserted-at',
          type: 'date-time',
          title: 'Inserted',
          question: 'When was it inserted?',
        },
        {
          id: 'catheter.days-in',
          type: 'number',
          unit: 'd',
          step: 0.1,
          limits: [0, 400],
          title: 'Days in place',
          question: 'How many days has it been in?',
          from: { elapsed: { from: 'catheter.inserted-at', to: 'asOf' } },
        },
        {
          id: 'catheter.signs',
          type: 'codes',
          codes: 'signs',
          unlisted: 'no',
          title: 'Signs',
          question: 'Which signs?',
        },
        { id: 'catheter.bypassing', type: 'boolean', title: 'Bypassing', question: 'Is urine bypassing?' },
        { id: 'catheter.unused', type: 'text', title: 'Nobody reads this', question: 'Anything else?' },
      ],
    }),
    'facts/option.json': doc('facts', {
      group: 'option',
      order: 9,
      title: 'Options',
      facts: [
        {
          id: 'option.material',
          type: 'code',
          codes: 'materials',
          title: 'Material',
          question: 'Which material?',
        },
        {
          id: 'option.size',
          type: 'number',
          unit: '[Ch]',
          limits: [4, 30],
          title: 'Size',
          question: 'Which size?',
        },
      ],
    }),
    'choices/dwell.json': doc('choices', {
      id: 'dwell',
      version: '0.1.0',
      title: 'Dwell',
      parameters: [
        {
          id: 'dwell.longest',
          type: 'number',
          unit: 'd',
          step: 1,
          range: [1, 90],
          title: 'Longest dwell',
          default: 14,
          cautious: 'lower',
          positions: [
            { value: 7, evidence: ['ev-short'] },
            { value: 14, evidence: ['ev-long'] },
            { value: 28, evidence: ['ev-longer'] },
          ],
        },
        {
          id: 'dwell.review',
          type: 'number',
          unit: 'd',
          step: 1,
          range: [1, 30],
          title: 'Days until the review',
          default: 3,
          cautious: 'lower',
          positions: [{ value: 3, evidence: ['ev-review'] }],
        },
        {
          id: 'dwell.signs',
          type: 'codes',
          codes: 'signs',
          title: 'Signs that count',
          default: ['fever'],
          cautious: 'higher',
          positions: [{ value: ['fever'], evidence: ['ev-review'] }],
        },
      ],
      tables: [
        {
          id: 'dwell.by-material',
          key: 'materials',
          title: 'Dwell by material',
          columns: { days: { type: 'number', unit: 'd', cautious: 'lower' } },
          rows: {
            latex: {
              days: {
                value: 28,
                range: [7, 28],
                positions: [
                  { value: 28, evidence: ['ev-long'] },
                  { value: 14, evidence: ['ev-short'] },
                ],
              },
            },
            silicone: { days: { value: 84, evidence: ['ev-longer'] } },
          },
          otherwise: { days: null },
        },
      ],
    }),
    'sources.json': doc('sources', {
      sources: [
        {
          id: 'invented-guide',
          kind: 'guideline',
          body: 'Invented body',
          title: 'Invented guide',
          year: 2020,
        },
        { id: 'unused-guide', kind: 'guideline', body: 'Invented body', title: 'Nobody cites this' },
      ],
    }),
    'evidence/dwell.json': doc('evidence', {
      topic: 'dwell',
      evidence: ['ev-short', 'ev-long', 'ev-longer', 'ev-review', 'ev-unused'].map((id) => ({
        id,
        statement: `Statement ${id}.`,
        from: [{ source: 'invented-guide', locator: 'p. 1', grade: 'ungraded', status: 'read' }],
      })),
    }),
    'hazards.json': doc('hazards', {
      hazards: [
        {
          id: 'left-too-long',
          title: 'Left in too long',
          description: 'The catheter stays longer than it may.',
          causes: ['Nobody counts the days'],
          effect: 'Infection',
          harm: 'Sepsis',
          controls: ['removal/day-20'],
          initial: { severity: 'Major', likelihood: 'Medium', risk: 3 },
          residual: { severity: 'Major', likelihood: 'Low', risk: 2 },
          owner: 'Infection prevention',
          status: 'open',
        },
      ],
    }),
    'removal/ruleset.json': set('removal', {
      shape: 'advice',
      scope: { fact: 'catheter.stage', operator: 'equal', value: 'in-place' },
      conditions: {
        overdue: daysIn('greaterThan', 'dwell.longest'),
        spare: { fact: 'catheter.bypassing', operator: 'recorded' },
      },
      derived: [
        {
          id: 'removal.signs-counted',
          type: 'number',
          unit: '1',
          limits: [0, 3],
          title: 'Signs that count',
          question: 'How many signs?',
          from: { countCodes: { of: 'catheter.signs', in: { parameter: 'dwell.signs' } } },
        },
      ],
      rules: ['overdue', 'infected', 'review', 'bypassing'],
    }),
    'removal/overdue.rule.json': doc('rule', {
      ...rule('overdue', {
        when: { condition: 'overdue' },
        locked: true,
        hazards: ['left-too-long'],
        advice: {
          summary: 'In place longer than {{dwell.longest}} d: take it out.',
          detail: ['Step one.'],
          indicator: 'critical',
        },
      }),
    }),
    'removal/infected.rule.json': doc(
      'rule',
      rule('infected', {
        when: { fact: 'removal.signs-counted', operator: 'greaterThan', value: 0 },
        locked: true,
      }),
    ),
    'removal/review.rule.json': doc(
      'rule',
      rule('review', { when: daysIn('greaterThanInclusive', 'dwell.review'), supersedes: ['bypassing'] }),
    ),
    'removal/bypassing.rule.json': doc(
      'rule',
      rule('bypassing', {
        when: { fact: 'catheter.bypassing', operator: 'equal', value: true },
        advice: { summary: 'Bypassing: look for the cause.', indicator: 'info' },
      }),
    ),
    'removal/overdue.vignettes.json': doc('vignettes', {
      base: {
        asOf: '2030-03-01T12:00:00Z',
        timeZone: 'Europe/London',
        recordedAt: '2030-03-01T11:00:00Z',
        facts: {
          'catheter.stage': 'in-place',
          'catheter.inserted-at': '2030-02-09T12:00:00Z',
          'catheter.signs': [],
        },
      },
      vignettes: [
        {
          id: 'day-20',
          title: 'Day 20',
          expect: {
            rules: { overdue: 'applies', infected: 'does-not-apply' },
            speaks: ['overdue', 'review'],
            summary: { overdue: 'In place longer than 14 d: take it out.' },
            deciding: { overdue: ['catheter.days-in', 'catheter.stage'] },
          },
        },
        {
          id: 'day-unknown',
          title: 'Nobody wrote down when it went in',
          without: ['catheter.inserted-at'],
          expect: { rules: { overdue: 'undetermined' }, ask: ['catheter.inserted-at'] },
        },
        {
          id: 'day-10',
          title: 'Day 10',
          facts: { 'catheter.inserted-at': '2030-02-19T12:00:00Z' },
          expect: { rules: { overdue: 'does-not-apply' }, speaks: ['review'] },
        },
      ],
    }),
    'reason/ruleset.json': set('reason', {
      shape: 'decision',
      conclusions: [
        { id: 'stop', title: 'Stop' },
        { id: 'take-out', title: 'Take it out' },
        { id: 'keep', title: 'Keep it' },
      ],
      defaultConclusion: { id: 'none', title: 'No reason' },
      rules: ['blocked', 'must-go', 'may-stay'],
    }),
    'reason/blocked.rule.json': doc(
      'rule',
      rule('blocked', {
        when: { fact: 'catheter.bypassing', operator: 'equal', value: true },
        concludes: 'stop',
      }),
    ),
    'reason/must-go.rule.json': doc(
      'rule',
      rule('must-go', { when: daysIn('greaterThan', 'dwell.longest'), concludes: 'take-out', locked: true }),
    ),
    'reason/may-stay.rule.json': doc(
      'rule',
      rule('may-stay', { when: daysIn('lessThan', 'dwell.review'), concludes: 'keep' }),
    ),
    'equipment/ruleset.json': set('equipment', {
      shape: 'choice',
      stock: ['catheter'],
      derived: [
        {
          id: 'option.table-dwell',
          type: 'number',
          unit: 'd',
          limits: [0, 100],
          title: 'Dwell by the table',
          question: 'How long may it stay?',
          from: { lookup: { table: 'dwell.by-material', key: 'option.material', column: 'days' } },
        },
      ],
      rules: ['latex-allergy', 'smallest', 'long-stay'],
    }),
    'equipment/latex-allergy.rule.json': doc(
      'rule',
      rule('latex-allergy', {
        of: 'catheter',
        when: { fact: 'allergy.latex', operator: 'equal', value: true },
        excludes: { fact: 'option.material', operator: 'equal', value: 'latex' },
        locked: true,
      }),
    ),
    'equipment/smallest.rule.json': doc(
      'rule',
      rule('smallest', {
        of: 'catheter',
        prefers: { lowest: 'option.size' },
        locked: true,
        advice: undefined,
      }),
    ),
    'equipment/long-stay.rule.json': doc(
      'rule',
      rule('long-stay', {
        of: 'catheter',
        prefers: { options: { fact: 'option.table-dwell', operator: 'greaterThan', value: 30 } },
        advice: undefined,
      }),
    ),
    'equipment/stock/catheter.json': doc('stock', {
      of: 'catheter',
      title: 'Catheters in stock',
      options: [
        {
          id: 'latex-14',
          title: 'Latex 14 Ch',
          facts: { 'option.material': 'latex', 'option.size': { value: 14, unit: '[Ch]' } },
        },
        {
          id: 'silicone-12',
          title: 'Silicone 12 Ch',
          facts: { 'option.material': 'silicone', 'option.size': { value: 12, unit: '[Ch]' } },
        },
      ],
    }),
    'equipment/latex-allergy.vignettes.json': doc('vignettes', {
      base: { asOf: '2030-03-01T12:00:00Z', timeZone: 'Europe/London', facts: { 'allergy.latex': true } },
      vignettes: [
        {
          id: 'allergic',
          title: 'Latex allergy',
          expect: {
            rules: { 'latex-allergy': 'applies' },
            options: { catheter: { 'latex-14': 'ruled-out', 'silicone-12': 'open' } },
            first: { catheter: 'silicone-12' },
            provisional: { catheter: false },
          },
        },
      ],
    }),
    'hospitals/hollow/adoption.json': doc('adoption', {
      id: 'hollow-adoption',
      organisation: 'Hollow Hill (invented)',
      approverRole: 'Lead nurse',
      date: '2030-01-01',
      reviewDue: '2031-01-01',
      releases: [{ id: 'removal', version: '0.1.0', digest: '0'.repeat(64) }],
    }),
    'hospitals/hollow/cases/bed-four.case.json': doc('case', {
      asOf: '2030-03-01T12:00:00Z',
      timeZone: 'Europe/London',
      facts: {
        'catheter.stage': 'in-place',
        'catheter.bypassing': { value: true, at: '2030-03-01T11:00:00Z' },
      },
    }),
  };
}

export const filesOf = (documents: Record<string, Json>): Map<string, string> =>
  new Map(Object.entries(documents).map(([path, value]) => [path, `${JSON.stringify(value, null, 2)}\n`]));

export const amendment = (changes: Record<string, readonly Json[]>, rest: Json = {}): Json =>
  doc('amendment', {
    id: 'hollow-2030',
    version: '1.0.0',
    organisation: 'Hollow Hill (invented)',
    approverRole: 'Lead nurse',
    date: '2030-01-01',
    amends: Object.entries(changes).map(([id, list]) => ({
      set: id,
      version: '0.1.0',
      digest: '0'.repeat(64),
      changes: list.map((change) => ({ reason: 'Local reason.', ...change })),
    })),
    ...rest,
  });

export const localPolicy = {
  sources: [
    { id: 'hollow-policy', kind: 'local-policy', body: 'Hollow Hill (invented)', title: 'Catheter policy' },
  ],
  evidence: [
    {
      id: 'hollow-says',
      statement: 'The hospital decided so.',
      from: [{ source: 'hollow-policy', locator: 's. 2', grade: 'ungraded', status: 'read' }],
    },
  ],
};

/** A policy with an amendment of `hollow`, its digests filled in from the published sets. */
export function amendedPolicy(
  changes: Record<string, readonly Json[]>,
  rest: Json = {},
  base: Record<string, Json> = policy(),
): Library {
  const published = readLibrary(filesOf(base));
  const amended = amendment(changes, rest);
  for (const entry of amended.amends as Json[]) {
    entry.digest = buildRelease(published, String(entry.set)).digest ?? entry.digest;
  }
  return readLibrary(filesOf({ ...base, 'hospitals/hollow/amendment.json': amended }));
}

/** The same library, its amendment made for another base. */
export function withBase(
  library: Library,
  base: { readonly version?: string; readonly digest?: string },
): Library {
  const files = new Map(library.documents.map(({ path, source }) => [path, source.text]));
  const path = 'hospitals/hollow/amendment.json';
  const document = JSON.parse(files.get(path)!) as { amends: Json[] };
  Object.assign(document.amends[0]!, base);
  return readLibrary(files.set(path, JSON.stringify(document)));
}
