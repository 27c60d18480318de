import type { Fact, Items, ItemsField } from '../../release/fact.ts';
import { MS_PER_UNIT } from '../time.ts';
import type { DerivationFault, Dictionary } from './kind.ts';

/** The kinds of aggregate by the one key that tells them apart. */
export type AggregateName = 'count' | 'total' | 'least' | 'greatest' | 'newest' | 'longestRun';

/** Whether an aggregate fits the list it looks at: its field, its type and unit, its window. */
export function aggregateFaults(
  name: AggregateName,
  body: Items & Partial<ItemsField>,
  fact: Fact,
  dictionary: Dictionary,
): DerivationFault[] {
  const list = dictionary.fact(body.of);
  const found: DerivationFault[] = [];
  if (!list) return found;
  if (list.type !== 'list')
    return [{ at: `/${name}/of`, expected: 'a list', received: `${body.of} (${list.type})` }];
  const field = body.field === undefined ? undefined : list.item?.[body.field];
  if (body.field !== undefined && !field) {
    const fields = Object.keys(list.item ?? {}).join(', ');
    found.push({ at: `/${name}/field`, expected: fields, received: body.field });
  }
  const wanted = name === 'count' ? { type: 'number', unit: '1' } : name === 'longestRun' ? undefined : field;
  if (wanted && (wanted.type !== fact.type || (wanted.unit ?? '1') !== (fact.unit ?? '1'))) {
    const unit = wanted.unit === undefined ? '' : ` in ${wanted.unit}`;
    found.push({
      at: '',
      expected: `${wanted.type}${unit}`,
      received: `${fact.type} in ${fact.unit ?? '1'}`,
    });
  }
  if (name === 'longestRun' && (list.kind !== 'measured' || MS_PER_UNIT[fact.unit ?? ''] === undefined)) {
    found.push({
      at: '',
      expected: 'a time over measured entries',
      received: `${list.kind ?? ''} in ${fact.unit ?? '1'}`,
    });
  }
  if (body.within !== undefined && list.kind === 'things') {
    found.push({ at: `/${name}/within`, expected: 'entries with a time', received: 'things' });
  }
  if (name === 'total' && (field?.limits?.[0] ?? -1) < 0) {
    found.push({ at: `/${name}/field`, expected: 'limits from 0', received: body.field ?? '' });
  }
  return found;
}
