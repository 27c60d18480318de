import type { Example } from '../provoke.ts';

const KEY = 'published/stays.key.json';

/** Mistakes in answer keys, and in what the hazard log says of hazards without a control. */
export const keys: readonly Example[] = [
  {
    code: 'key-answers-nothing',
    mistake: 'a case whose answer was left empty',
    path: KEY,
    from: '{ "chosen": { "set": "kit", "of": "catheter", "ruledOut": false } }',
    to: '«{»}',
  },
  {
    code: 'status-raised',
    mistake: 'a row from memory that is said to be read',
    path: KEY,
    from: '"locator": "1.1",\n      "status": "memory"',
    to: '"locator": "1.1",\n      "status": «"read"»',
  },
  {
    code: 'unknown-source',
    mistake: 'a key from a source that the register does not have',
    path: KEY,
    from: '"source": "guide-1",\n  "base"',
    to: '"source": «"guide-2"»,\n  "base"',
    hint: 'did you mean `guide-1`',
  },
  {
    code: 'unknown-set',
    mistake: 'an answer asked of a set that there is not',
    path: KEY,
    from: '"set": "reason"',
    to: '"set": «"raison"»',
  },
  {
    code: 'unknown-conclusion',
    mistake: 'a conclusion that the set does not have',
    path: KEY,
    from: '"is": ["supported"]',
    to: '"is": [«"suported"»]',
    hint: 'did you mean `supported`',
  },
  {
    code: 'unknown-evidence',
    mistake: 'an answer that rests on a row nobody knows',
    path: KEY,
    from: '"restsOn": ["stay-latex"]',
    to: '"restsOn": [«"stay-latax"»]',
    hint: 'did you mean `stay-latex`',
  },
  {
    code: 'unknown-stock-list',
    mistake: 'an item of a stock list that the set does not have',
    path: KEY,
    from: '"of": "catheter"',
    to: '"of": «"gel"»',
  },
  {
    code: 'vignette-wrong-word',
    mistake: 'a conclusion asked of a set of advice',
    path: KEY,
    from: '"conclusion": { "set": "reason", "is": ["supported"] }',
    to: '«"conclusion"»: { "set": "stops", "is": ["supported"] }',
  },
  {
    code: 'vignette-without-base',
    mistake: 'a fact taken away that the base patient does not have',
    path: KEY,
    from: '"without": ["catheter.size"]',
    to: '"without": [«"catheter.material"»]',
  },
  {
    code: 'unknown-fact',
    mistake: 'a patient with a misspelt fact',
    path: KEY,
    from: '"facts": { "patient.signs": ["fever"] }',
    to: '"facts": { «"patient.sings"»: ["fever"] }',
  },
  {
    code: 'duplicate-id',
    mistake: 'two cases of one name',
    path: KEY,
    from: '"id": "latex-in-hand"',
    to: '"id": «"fever"»',
  },
  {
    code: 'hazard-uncontrolled',
    mistake: 'a hazard closed without a control',
    path: 'hazards.json',
    from: '"controls": ["stops/latex-yes"],\n      "initial": { "severity": "Major", "likelihood": "Medium", "risk": 3 },\n      "residual": { "severity": "Major", "likelihood": "Very low", "risk": 2 },\n      "owner": "Clinical safety officer",\n      "status": "open"',
    to: '"controls": [],\n      "initial": { "severity": "Major", "likelihood": "Medium", "risk": 3 },\n      "residual": { "severity": "Major", "likelihood": "Very low", "risk": 2 },\n      "owner": "Clinical safety officer",\n      "status": «"closed"»',
  },
];
