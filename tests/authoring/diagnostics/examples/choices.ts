import type { Example } from '../provoke.ts';

const CATHETER = 'facts/catheter.json';
const CHOICES = 'choices/dwell.json';
const HAZARDS = 'hazards.json';
const EVIDENCE = 'evidence/dwell.json';
const NOT_CARRIED = 'evidence/not-carried.json';

/** Mistakes in facts, choices, evidence and the hazard log. */
export const choices: readonly Example[] = [
  {
    code: 'fact-key-not-fit',
    mistake: 'a unit on a yes or no',
    path: 'facts/allergy.json',
    from: '"type": "boolean",',
    to: '"type": "boolean",\n      «"unit"»: "mL",',
  },
  {
    code: 'limits-order',
    mistake: 'limits the wrong way round',
    path: CATHETER,
    from: '"limits": [0, 400]',
    to: '"limits": «[»400, 0]',
  },
  {
    code: 'limits-order',
    mistake: 'a usual band outside the limits',
    path: CATHETER,
    from: '"usual": [6, 24]',
    to: '"usual": «[»2, 24]',
  },
  {
    code: 'bad-step',
    mistake: 'a step that is a third',
    path: 'facts/patient.json',
    from: '"step": 0.01',
    to: '"step": «0.3333333333»',
  },
  {
    code: 'unknown-code-list',
    mistake: 'a misspelt code list, without an echo from everything that compares the fact',
    path: CATHETER,
    from: '"codes": "materials"',
    to: '"codes": «"material"»',
    hint: 'did you mean `materials`',
  },
  {
    code: 'parameter-out-of-range',
    mistake: 'a position outside the range',
    path: CHOICES,
    from: '{ "value": 5, "evidence"',
    to: '{ "value": «0», "evidence"',
  },
  {
    code: 'parameter-off-positions',
    mistake: 'a default that nobody published',
    path: CHOICES,
    from: '"default": 7',
    to: '"default": «9»',
  },
  {
    code: 'parameter-without-position',
    mistake: 'a value without a source that does not say it is local',
    path: CHOICES,
    from: '"default": true,\n      "cautious": "higher",\n      "positions": [],\n      "local": true',
    to: '"default": true,\n      "cautious": "higher",\n      "positions": «[»]',
  },
  {
    code: 'table-row-missing',
    mistake: 'a material without a row',
    path: CHOICES,
    from: '"rows": {\n        "latex": { "days": { "value": 14, "range": [1, 28], "positions": [{ "value": 14, "evidence": ["stay-latex"] }] } },',
    to: '"rows": «{»',
    without: ['hospitals/eastmere/amendment.json'],
  },
  {
    code: 'table-cell-missing',
    mistake: 'a row without a cell',
    path: CHOICES,
    from: '"silicone": { "days": { "value": 84, "evidence": ["stay-latex"] } }',
    to: '"silicone": «{»}',
  },
  {
    code: 'unknown-column',
    mistake: 'a cell of a column that is not there',
    path: CHOICES,
    from: '"silicone": { "days":',
    to: '"silicone": { «"dyas"»:',
    hint: 'did you mean `days`',
  },
  {
    code: 'code-not-permitted',
    mistake: 'a row of an unknown code',
    path: CHOICES,
    from: '"rows": {',
    to: '"rows": {\n        «"rubber"»: { "days": { "value": 7 } },',
  },
  {
    code: 'step-mismatch',
    mistake: 'a default between two steps',
    path: CHOICES,
    from: '"default": 7',
    to: '"default": «6.5»',
  },
  {
    code: 'unknown-source',
    mistake: 'a misspelt source',
    path: EVIDENCE,
    from: '"source": "guide-1", "locator": "1.1"',
    to: '"source": «"guide-2"», "locator": "1.1"',
    hint: 'did you mean `guide-1`',
  },
  {
    code: 'evidence-without-source',
    mistake: 'a statement that rests on nothing',
    path: EVIDENCE,
    from: '"from": [{ "source": "guide-1", "locator": "1.1", "grade": "ungraded", "status": "memory" }]',
    to: '"from": «[»]',
  },
  {
    code: 'carried-and-not',
    mistake: 'a row that is evidence and is said to be left out',
    path: NOT_CARRIED,
    from: '"id": "stay-child"',
    to: '"id": «"stay-latex"»',
  },
  {
    code: 'duplicate-id',
    mistake: 'a row that is left out for two reasons',
    path: NOT_CARRIED,
    from: '"sentence": "Written for children." }',
    to: `"sentence": "Written for children." },
    { "id": «"stay-child"», "why": "other-set", "sentence": "For another set." }`,
  },
  {
    code: 'wrong-shape',
    mistake: 'a reason that is none of the listed ones',
    path: NOT_CARRIED,
    from: '"why": "paediatric"',
    to: '"why": «"pediatric"»',
    hint: 'did you mean `paediatric`',
  },
  {
    code: 'evidence-unused',
    mistake: 'a statement that nothing rests on',
    path: EVIDENCE,
    from: '"evidence": [',
    to: `"evidence": [
    {
      "id": «"stay-long"»,
      "statement": "Long stays are not safer.",
      "from": [{ "source": "guide-1", "locator": "1.3", "grade": "ungraded", "status": "memory" }]
    },`,
  },
  {
    code: 'hazard-control-missing',
    mistake: 'a control that is no vignette',
    path: HAZARDS,
    from: '["stops/latex-yes"]',
    to: '[«"stops/latex-yess"»]',
    hint: 'did you mean `stops/latex-yes`',
  },
  {
    code: 'risk-off-matrix',
    mistake: 'a risk that is not read off the matrix',
    path: HAZARDS,
    from: '"likelihood": "Medium", "risk": 3',
    to: '"likelihood": "Medium", "risk": «2»',
  },
];
