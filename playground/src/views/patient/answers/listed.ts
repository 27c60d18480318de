import type { CaseValue, Fact, ItemField, ListItem } from '@dwellset/core';
import { isObject } from './values.ts';

/** The entries of a list as the form shows them. */
export interface Listed {
  readonly items: readonly ListItem[];
  /** Nobody says that there are no others. */
  readonly open: boolean;
}

/** What is on the list; `undefined` where the value is no list. */
export function listedOf(value: CaseValue | undefined): Listed | undefined {
  const whole: unknown = Array.isArray(value) ? { items: value } : value;
  if (!isObject(whole) || !Array.isArray(whole.items) || !whole.items.every(isObject)) return undefined;
  return { items: whole.items as ListItem[], open: whole.complete === false };
}

/** The shortest way to say it in a case. */
export const asValue = ({ items, open }: Listed): CaseValue => (open ? { items, complete: false } : items);

/** An entry with one answer put in, or taken out. */
export function withField(item: ListItem, name: string, value: CaseValue | undefined): ListItem {
  const { [name]: _, ...others } = item;
  return value === undefined ? others : { ...item, [name]: value };
}

/** What is asked of an entry: what follows from other fields only where the entry states it all the same. */
export const fieldsOf = (fact: Fact, item: ListItem): [string, ItemField][] =>
  Object.entries(fact.item ?? {}).filter(([name, { from }]) => !from || Object.hasOwn(item, name));
