import type { Example } from '../provoke.ts';

const PATIENT = 'facts/patient.json';
const CATHETER = 'facts/catheter.json';
const STOPS = 'stops/ruleset.json';
const RATIO = '{ "ratio": ["patient.urine", "patient.weight", { "value": 6, "unit": "h" }] }';
const DAYS = '{ "calendarDays": { "from": "catheter.inserted-at", "to": "asOf" } }';
const BAND = '{ "band": { "of": "patient.age-years", "cuts": [18], "codes": ["young", "adult"] } }';
const LOOKUP = '{ "lookup": { "table": "dwell.longest", "key": "catheter.material", "column": "days" } }';

const ratio = (to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: PATIENT, from: RATIO, to });
const days = (to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: CATHETER, from: DAYS, to });
const band = (to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: PATIENT, from: BAND, to });
const lookup = (to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: STOPS, from: LOOKUP, to });

/** Mistakes in derived facts. */
export const derivations: readonly Example[] = [
  {
    code: 'unknown-derivation',
    mistake: 'a misspelt kind',
    ...ratio(RATIO.replace('"ratio"', '«"raito"»')),
    hint: 'did you mean `ratio`',
  },
  {
    code: 'two-keys-in-node',
    mistake: 'two kinds at once',
    ...days('{ "calendarDays": { "from": "catheter.inserted-at", "to": "asOf" }, «"sum"»: [] }'),
  },
  {
    code: 'derivation-nested',
    mistake: 'a derivation inside another',
    ...ratio('{ "ratio": ["patient.urine", { «"sum"»: ["patient.weight", "patient.weight"] }] }'),
  },
  {
    code: 'derivation-misplaced',
    mistake: 'a local choice in the dictionary',
    path: PATIENT,
    from: BAND,
    to: '{ «"band"»: { "of": "patient.age-years", "cuts": [18], "codes": ["young", "adult"], "atCut": { "parameter": "dwell.enabled" } } }',
  },
  {
    code: 'derivation-wrong-type',
    mistake: 'elapsed time from a code',
    ...days('{ "calendarDays": { "from": «"catheter.material"», "to": "asOf" } }'),
  },
  {
    code: 'derivation-wrong-type',
    mistake: 'elapsed time from a day',
    ...days('{ "elapsed": { "from": «"catheter.use-by"», "to": "asOf" } }'),
    hint: 'use `calendarDays` for days',
  },
  {
    code: 'derivation-wrong-type',
    mistake: 'a sum of dates',
    ...ratio('{ "ratio": ["patient.urine", «"catheter.inserted-at"»] }'),
  },
  {
    code: 'derivation-wrong-unit',
    mistake: 'a rate without its hours',
    ...ratio('{ «"ratio"»: ["patient.urine", "patient.weight"] }'),
  },
  {
    code: 'derivation-wrong-unit',
    mistake: 'a sum of two units',
    ...ratio('{ "sum": [«"patient.urine"», { "value": 1, "unit": "mL/kg/h" }] }'),
  },
  {
    code: 'derivation-wrong-unit',
    mistake: 'the hour of the day in days',
    ...days('{ «"localHour"»: { "at": "asOf" } }'),
  },
  {
    code: 'derivation-wrong-unit',
    mistake: 'the lowest of two units',
    path: CATHETER,
    from: DAYS,
    to: '{ "lowest": [«"patient.age-years"», "catheter.days-2"] }',
    markedIn: {
      path: CATHETER,
      from: '"facts": [',
      to: `"facts": [
    { "id": "catheter.days-2", "type": "number", "unit": "d", "limits": [0, 9], "title": "x", "question": "x?" },`,
    },
  },
  {
    code: 'constant-outside-limits',
    mistake: 'a divisor that may be negative',
    ...ratio('{ "ratio": ["patient.urine", "patient.weight", «{» "value": -6, "unit": "h" }] }'),
  },
  {
    code: 'derivation-cycle',
    mistake: 'a fact that is derived from itself',
    ...days('{ "highest": [«"catheter.days"», "catheter.days-2"] }'),
    markedIn: {
      path: CATHETER,
      from: '"facts": [',
      to: `"facts": [
    { "id": "catheter.days-2", "type": "number", "unit": "d", "limits": [0, 9], "title": "x", "question": "x?" },`,
    },
  },
  {
    code: 'limits-order',
    mistake: 'cuts that do not rise',
    ...band(
      '{ "band": { "of": "patient.age-years", "cuts": [18, «12»], "codes": ["young", "adult", "young"] } }',
    ),
  },
  {
    code: 'wrong-shape',
    mistake: 'a band too few',
    ...band('{ "band": { "of": "patient.age-years", "cuts": [18, 60], "codes": «[»"young", "adult"] } }'),
  },
  {
    code: 'code-not-permitted',
    mistake: 'a band of another list',
    ...band('{ "band": { "of": "patient.age-years", "cuts": [18], "codes": ["young", «"old"»] } }'),
  },
  {
    code: 'unknown-table',
    mistake: 'a misspelt table',
    ...lookup(LOOKUP.replace('"dwell.longest"', '«"dwell.longset"»')),
    hint: 'did you mean `dwell.longest`',
  },
  {
    code: 'unknown-column',
    mistake: 'a misspelt column',
    ...lookup(LOOKUP.replace('"days"', '«"dyas"»')),
    hint: 'did you mean `days`',
  },
  {
    code: 'derivation-wrong-type',
    mistake: 'a key of another code list',
    ...lookup(LOOKUP.replace('"catheter.material"', '«"patient.age-group"»')),
  },
  {
    code: 'derivation-wrong-type',
    mistake: 'counting one code',
    path: STOPS,
    from: '{ "countCodes": { "of": "patient.signs", "in": { "parameter": "dwell.signs" } } }',
    to: '{ "countCodes": { "of": «"catheter.material"», "in": ["latex"] } }',
  },
  {
    code: 'unknown-set',
    mistake: 'the conclusion of a set that is not there',
    path: STOPS,
    from: '{ "conclusion": "reason" }',
    to: '{ "conclusion": «"reasn"» }',
    hint: 'did you mean `reason`',
  },
  {
    code: 'derivation-wrong-type',
    mistake: 'the conclusion of a set that decides nothing',
    path: STOPS,
    from: '{ "conclusion": "reason" }',
    to: '{ "conclusion": «"kit"» }',
  },
  {
    code: 'conclusion-codes',
    mistake: 'a code list that is not the conclusions',
    path: STOPS,
    from: '"codes": "reasons"',
    to: '"codes": «"materials"»',
  },
  {
    code: 'name-mismatch',
    mistake: 'a conclusion under the name of another set',
    path: STOPS,
    from: '"id": "conclusion.reason"',
    to: '"id": «"conclusion.motive"»',
  },
  {
    code: 'derivation-misplaced',
    mistake: 'a conclusion in the dictionary',
    path: PATIENT,
    from: RATIO,
    to: '{ «"conclusion"»: "reason" }',
  },
  {
    code: 'set-cycle',
    mistake: 'a set that reads the conclusion of one that reads its own',
    path: 'reason/ruleset.json',
    from: '"derived": [],',
    to: `"derived": [
    {
      "id": "conclusion.reason",
      "type": "code",
      "codes": "reasons",
      "title": "what the reason comes to",
      "question": "Is there a reason?",
      "from": { "conclusion": «"reason"» }
    }
  ],`,
  },
  {
    code: 'unknown-field',
    mistake: 'a field that the entries do not have',
    path: CATHETER,
    from: '{ "field": "passed",',
    to: '{ "field": «"pased"»,',
    hint: 'did you mean `passed`',
  },
  {
    code: 'operator-not-fit',
    mistake: 'an operator that does not fit the field of an entry',
    path: CATHETER,
    from: '"passed", "operator": "equal"',
    to: '"passed", "operator": «"lessThan"»',
  },
  {
    code: 'derivation-wrong-type',
    mistake: 'an aggregate of a fact that is no list',
    path: CATHETER,
    from: '{ "count": { "of": "catheter.attempts", "where": { "field": "passed", "operator": "equal", "value": false } } }',
    to: '{ "count": { "of": «"catheter.material"» } }',
  },
  {
    code: 'fact-key-not-fit',
    mistake: 'entries of a fact that is no list',
    path: CATHETER,
    from: '"id": "catheter.use-by", "type": "date",',
    to: '"id": "catheter.use-by", "type": "date", «"kind"»: "things",',
  },
  {
    code: 'wrong-shape',
    mistake: 'an event with two fields of time',
    path: CATHETER,
    from: '"at": ["at"],',
    to: '"at": «[»"at", "at"],',
  },
];
