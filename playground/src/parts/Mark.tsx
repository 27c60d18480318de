import type { CheckWord, OptionState, Outcome, TruthWord } from '@dwellset/core';

/** Outcomes are told apart by shape, never by colour; words always stand beside the shape or behind it. */
type Shape = 'filled' | 'open' | 'dotted' | 'dash' | 'struck';
/** Rules are round; checks are square, where filled means met. */
type Form = 'round' | 'square';

const OUTCOME: Readonly<Record<Outcome, Shape>> = {
  applies: 'filled',
  'does-not-apply': 'open',
  undetermined: 'dotted',
  'not-in-scope': 'dash',
  'switched-off': 'struck',
};
const CHECK: Readonly<Record<Outcome, Shape>> = {
  ...OUTCOME,
  applies: 'open',
  'does-not-apply': 'filled',
};
const OPTION: Readonly<Record<OptionState, Shape>> = {
  open: 'open',
  'to-confirm': 'dotted',
  held: 'dash',
  'ruled-out': 'struck',
};
const TRUTH: Readonly<Record<TruthWord, Shape>> = { true: 'filled', false: 'open', unknown: 'dotted' };

const WORDS: Readonly<Record<Outcome, CheckWord>> = {
  applies: 'not-met',
  'does-not-apply': 'met',
  undetermined: 'undetermined',
  'not-in-scope': 'not-applicable',
  'switched-off': 'switched-off',
};
/** The checklist's word for an outcome; what was looked for and not recorded is told apart only in the reasons. */
export const checkOf = (outcome: Outcome): CheckWord => WORDS[outcome];

/** Drawn in place: a reference to a shape that stands elsewhere costs a copy of it, which a ledger has thousands of. */
const Mark = ({ shape, form = 'round' }: { shape: Shape; form?: Form }) => (
  <svg class="mark" viewBox="0 0 16 16" aria-hidden="true" focusable="false">
    {shape === 'dash' ? (
      <path d="M3 8h10" class="stroke" />
    ) : form === 'round' ? (
      <circle cx="8" cy="8" r="5.25" class={shape} />
    ) : (
      <rect x="2.75" y="2.75" width="10.5" height="10.5" class={shape} />
    )}
    {shape === 'struck' && <path d="M1.5 14.5l13-13" class="stroke" />}
  </svg>
);

export const OutcomeMark = ({ outcome, check = false }: { outcome: Outcome; check?: boolean }) => (
  <Mark shape={check ? CHECK[outcome] : OUTCOME[outcome]} form={check ? 'square' : 'round'} />
);
export const OptionMark = ({ state }: { state: OptionState }) => <Mark shape={OPTION[state]} />;
export const TruthMark = ({ truth }: { truth: TruthWord }) => <Mark shape={TRUTH[truth]} />;
