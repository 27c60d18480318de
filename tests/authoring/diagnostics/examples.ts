import { aggregates } from './examples/aggregates.ts';
import { cases } from './examples/cases.ts';
import { choices } from './examples/choices.ts';
import { conditions } from './examples/conditions.ts';
import { derivations } from './examples/derivations.ts';
import { documents } from './examples/documents.ts';
import { entries } from './examples/entries.ts';
import { fieldConditions } from './examples/fieldConditions.ts';
import { hospitals } from './examples/hospitals.ts';
import { keys } from './examples/keys.ts';
import { lists } from './examples/lists.ts';
import { rules } from './examples/rules.ts';
import { wards } from './examples/wards.ts';
import { windows } from './examples/windows.ts';
import type { Example } from './provoke.ts';

/** One mistake each; every code of the check has at least one. */
export const examples: readonly Example[] = [
  ...documents,
  ...choices,
  ...conditions,
  ...derivations,
  ...lists,
  ...aggregates,
  ...windows,
  ...fieldConditions,
  ...entries,
  ...rules,
  ...cases,
  ...hospitals,
  ...keys,
  ...wards,
];
