import { cases } from './examples/cases.ts';
import { choices } from './examples/choices.ts';
import { conditions } from './examples/conditions.ts';
import { derivations } from './examples/derivations.ts';
import { documents } from './examples/documents.ts';
import { hospitals } from './examples/hospitals.ts';
import { rules } from './examples/rules.ts';
import type { Example } from './provoke.ts';

/** One mistake each; every code of the check has at least one. */
export const examples: readonly Example[] = [
  ...documents,
  ...choices,
  ...conditions,
  ...derivations,
  ...rules,
  ...cases,
  ...hospitals,
];
