import type { OptionState, RuleResult, TruthWord } from '@dwellset/core';
import { html, type Markup } from './markup.ts';

/** Outcomes are told apart by shape, never by colour; the words always stand beside the shape. */
type Shape = 'filled' | 'open' | 'dotted' | 'dash' | 'struck';
/** Rules are round; checks are square, where filled means met. */
type Form = 'round' | 'square';

const OUTCOME: Readonly<Record<RuleResult['outcome'], Shape>> = {
  applies: 'filled',
  'does-not-apply': 'open',
  undetermined: 'dotted',
  'not-in-scope': 'dash',
  'switched-off': 'struck',
};

const CHECK: Readonly<Record<NonNullable<RuleResult['check']>, Shape>> = {
  met: 'filled',
  'not-met': 'open',
  'not-recorded': 'dotted',
  undetermined: 'dotted',
  'not-applicable': 'dash',
  'switched-off': 'struck',
};

const OPTION: Readonly<Record<OptionState, Shape>> = {
  open: 'open',
  'to-confirm': 'dotted',
  held: 'dash',
  'ruled-out': 'struck',
};

const TRUTH: Readonly<Record<TruthWord, Shape>> = { true: 'filled', false: 'open', unknown: 'dotted' };

const body = (form: Form, parts: string): Markup =>
  form === 'round'
    ? html`<circle cx="8" cy="8" r="5.25" class="${parts}"/>`
    : html`<rect x="2.75" y="2.75" width="10.5" height="10.5" class="${parts}"/>`;

/** The shape alone: hidden from screen readers, because its words follow it. */
function mark(shape: Shape, form: Form = 'round'): Markup {
  const drawn =
    shape === 'dash'
      ? html`<path d="M3 8h10"/>`
      : [body(form, shape), shape === 'struck' && html`<path d="M1.5 14.5l13-13"/>`];
  return html`<svg class="mark" viewBox="0 0 16 16" aria-hidden="true" focusable="false">${drawn}</svg>`;
}

export const outcomeMark = ({ outcome, check }: Pick<RuleResult, 'outcome' | 'check'>): Markup =>
  check === undefined ? mark(OUTCOME[outcome]) : mark(CHECK[check], 'square');

export const optionMark = (state: OptionState): Markup => mark(OPTION[state]);

export const truthMark = (truth: TruthWord): Markup => mark(TRUTH[truth]);
