import type { Severity } from '../diagnostic.ts';

const error = (summary: string): { severity: Severity; summary: string } => ({ severity: 'error', summary });
const warning = (summary: string): { severity: Severity; summary: string } => ({
  severity: 'warning',
  summary,
});

/** Everything the check can say, by code. */
export const CODES = {
  // The text of a document
  'broken-json': error('the document is not strict JSON'),
  'too-large': error('the document is larger than 1 MiB'),
  'too-deep': error('the document is nested more than 64 deep'),
  'forbidden-key': error('a key reaches into the prototype of an object'),
  'duplicate-key': error('a key stands twice in one object'),
  'look-alike-character': error('a character looks like another one or cannot be seen'),

  // Structure
  'unknown-kind': error('`$schema` names no kind of document'),
  'misplaced-document': error('a document of this kind belongs elsewhere'),
  'unknown-key': error('a key is not part of this kind of entry'),
  'missing-key': error('a required key is missing'),
  'wrong-shape': error('a value has the wrong shape'),
  'id-grammar': error('an id breaks the grammar of ids'),
  'bad-date': error('a date or an instant does not exist or has no offset'),
  'stale-duration': error('a duration is not ISO 8601 in days, hours and minutes'),
  timezone: error('a time zone is not an IANA name'),

  // Names
  'duplicate-id': error('two entries share one id'),
  'name-mismatch': error('an id differs from the name of its file or folder'),
  'reserved-group': error('a group of facts is reserved'),
  'unlisted-rule': error('a rule file is not listed in its set'),
  'missing-rule': error('a set lists a rule that has no file'),
  'stock-not-listed': error('a stock list and its set do not name each other'),
  'unknown-fact': error('no fact has this id'),
  'unknown-parameter': error('no parameter has this id'),
  'parameter-not-in-uses': error('a parameter or table stands in a topic that the set does not use'),
  'unknown-topic': error('no document in `choices` has this id'),
  'unknown-table': error('no table has this id'),
  'unknown-column': error('a table has no such column'),
  'unknown-code-list': error('no code list has this name'),
  'unknown-condition': error('the set has no condition of this name'),
  'unknown-evidence': error('no evidence has this id'),
  'unknown-source': error('no source has this id'),
  'unknown-hazard': error('no hazard has this id'),
  'unknown-conclusion': error('the set has no such conclusion'),
  'unknown-stock-list': error('the set has no such stock list or option'),
  'unknown-rule': error('the set has no such rule'),
  'unknown-set': error('no rule set has this id'),

  // Facts and choices
  'fact-key-not-fit': error('a key does not fit the type of its fact or parameter'),
  'limits-order': error('two ends are in the wrong order, or the usual band leaves the limits'),
  'bad-step': error('a step is not a power of ten or a multiple of one'),
  'parameter-out-of-range': error('a value lies outside the range of its parameter'),
  'parameter-off-positions': warning('a default is none of the published positions'),
  'parameter-without-position': warning('a parameter has neither a position nor the mark `local`'),
  'table-row-missing': error('a code has no row and the table no `otherwise`'),
  'table-cell-missing': error('a row has no cell for a column'),

  // Conditions
  'two-keys-in-node': error('a node has two of the keys of which it needs exactly one'),
  'empty-group': error('a group or list of a condition is empty'),
  'refused-key': error('a key of other rule engines is refused'),
  'refused-decorator': error('an operator decorator of other rule engines is refused'),
  'unknown-operator': error('no operator has this name'),
  'operator-not-fit': error('an operator does not fit the type of the fact'),
  'value-not-taken': error('`recorded` and `notRecorded` take no value'),
  'parameter-not-fit': error('a parameter on the right side does not fit the fact and operator'),
  'code-not-permitted': error('a code is not in the code list'),
  'unit-mismatch': error('two units that must be equal differ'),
  'step-mismatch': error('a value is not a multiple of the step'),
  'constant-outside-limits': error('a constant lies outside the limits of the fact'),
  'condition-cycle': error('named conditions lead back to themselves'),
  'option-fact-in-when': error('a fact of an option is read where only the patient may be read'),

  // Derivations
  'unknown-derivation': error('no kind of derivation has this name'),
  'derivation-nested': error('a derivation stands inside another one'),
  'derivation-misplaced': error('a derivation in the dictionary reads a local choice or a rule set'),
  'unknown-field': error('the entries of a list have no such field'),
  'moment-in-entry': error(
    'a field of an entry follows from the moment of the case other than by calendar days',
  ),
  'window-not-fit': error('a window of time does not fit the list it is laid over'),
  'conclusion-codes': error('the codes of a fact are not the conclusions it reads'),
  'derivation-wrong-type': error('the types of a derivation do not fit'),
  'derivation-wrong-unit': error('the units of a derivation do not fit'),
  'derivation-cycle': error('derived facts lead back to themselves'),

  // Rules
  'empty-list-vacuous': warning(
    'a comparison of the least or greatest of a list holds where the list is empty',
  ),
  'when-or-expect': error('a rule has not exactly the condition that the shape of its set asks for'),
  'choice-rule-shape': error('a choice rule lacks a part, or another rule has one'),
  'decision-shape': error('conclusions stand where no decision is made, or are missing where one is'),
  'rule-without-evidence': error('a rule names no evidence'),
  'locked-without-hazard': error('a locked rule names no hazard'),
  'folding-cycle': error('rules fold each other'),
  'set-cycle': error('rule sets read each other’s conclusions'),
  'untested-rule': warning('a rule has no vignette'),

  // Texts
  'summary-too-long': error('a summary can grow to 140 characters or more'),
  'unknown-place': error('a placeholder names nothing that a text can show'),
  'typed-number': error('a number in a text is the value of a parameter of the rule'),
  'hard-stop-wording': warning('a locked critical summary does not say what not to do, or to act now'),

  // Evidence and hazards
  'evidence-without-source': error('evidence rests on no source'),
  'evidence-unused': warning('nothing rests on this evidence'),
  'carried-and-not': error('a row that is said not to be carried is evidence'),
  'status-raised': error('a published answer is said to be known better than the evidence that restates it'),
  'key-answers-nothing': error('a case of an answer key has no answer'),
  'hazard-uncontrolled': error('a hazard without a control is said to be closed'),
  'hazard-control-missing': error('a control of a hazard is no vignette'),
  'risk-off-matrix': error('a risk is not the one that severity and likelihood give'),

  // Case values
  'wrong-unit': error('a value is not in the unit of its fact'),
  'impossible-value': error('a value lies outside the limits of its fact'),

  // Vignettes
  'vignette-expects-nothing': error('a vignette expects nothing'),
  'vignette-expects-unknown-rule': error('a vignette expects something of a rule that the set does not have'),
  'vignette-wrong-word': error('an expected word does not belong to the shape of the set'),
  'vignette-empty-hand': error('a vignette expects something of an item in the hand and states none'),
  'vignette-without-base': error('a vignette takes away a fact that its base does not have'),

  // Hospitals and wards
  'locked-change': error('an amendment changes a locked rule'),
  'indicator-not-raised': error('a change raises an indicator that is no higher than before'),
  'value-without-evidence': error('a value off the published positions cites no evidence'),
  'amendment-empty': error('a change alters nothing'),
  'withdrawn-release': error('a release that was withdrawn is adopted, amended or named as a replacement'),
  'unknown-stage': error('a ward has no earlier stage of this name'),
  'draw-shape': error('a draw has not exactly one of its two forms'),
  'dates-order': error('an end lies before its start'),
} as const;

export type Code = keyof typeof CODES;
