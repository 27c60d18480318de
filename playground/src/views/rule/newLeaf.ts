import type { Condition, Operator } from '@dwellset/core';
import { words } from '../../words.ts';
import { firstValue, fitted, leaf, operatorsOf, type Value } from './outline.ts';

const STARTS = ['catheter.stage', 'patient.setting'];

/** A condition to begin with; the author changes it at once. */
export function newLeaf(): Condition {
  const facts = words.value.facts;
  const id = STARTS.find((one) => facts.has(one)) ?? [...facts.keys()][0] ?? '';
  return leafOf(id);
}

/** A fact compared with as much of what was asked before as still fits it. */
export function leafOf(id: string, operator?: Operator, value?: Value): Condition {
  const fact = words.value.facts.get(id);
  const fitting = operatorsOf(fact);
  const kept = operator && fitting.includes(operator) ? operator : (fitting[0] ?? 'recorded');
  const codes = Object.keys(words.value.codes[fact?.codes ?? ''] ?? {});
  return leaf(id, kept, fitted(kept, value, firstValue(fact, codes)));
}
