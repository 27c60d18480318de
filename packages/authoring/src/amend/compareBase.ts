import { digest, type Release } from '@dwellset/core';
import type { Parts } from '../build/parts.ts';
import type { AmendedSet, Change } from '../documents/amendment.ts';
import { valueText } from './cautious.ts';
import type { Refusals } from './refusals.ts';

/**
 * Refuses an amendment of another base. Only the present documents are at hand, so the answer shows, for each
 * item it amends, what stands there now.
 */
export function compareBase(
  entry: AmendedSet,
  base: Release,
  parts: Parts,
  pointer: string,
  refusals: Refusals,
): boolean {
  const now = digest(base);
  if (entry.version === base.version && entry.digest === now) return true;
  const otherVersion = entry.version !== base.version;
  const message = otherVersion
    ? `the amendment was made for \`${entry.set}\` ${entry.version}, and the published set is ${base.version}`
    : `the amendment was made for another text of \`${entry.set}\` ${entry.version} than the published one`;
  refusals.add(
    `${pointer}/${otherVersion ? 'version' : 'digest'}`,
    otherVersion ? 'other-version' : 'other-digest',
    message,
    {
      expected: otherVersion ? base.version : now,
      received: otherVersion ? entry.version : entry.digest,
      hint: 'look at every amended item again, then pin the amendment to the published base',
    },
  );
  entry.changes.forEach((change, index) => {
    for (const item of amendedItems(change, parts)) {
      const stands = item.now === undefined ? 'no longer exists' : `now reads \`${item.now}\``;
      refusals.add(`${pointer}/changes/${index}`, 'amended-item', `\`${item.id}\` ${stands}`, {
        severity: 'warning',
      });
    }
  });
  return false;
}

interface Item {
  readonly id: string;
  /** Absent where it no longer exists. */
  readonly now?: string;
}

function amendedItems(change: Change, parts: Parts): Item[] {
  if ('set' in change)
    return Object.keys(change.set).map((path) => ({ id: path, ...present(choiceText(path, parts)) }));
  if ('stock' in change) {
    const items = parts.stock[change.stock.of];
    return [{ id: change.stock.of, ...present(items?.map(({ id }) => id).join(', ')) }];
  }
  const id = ruleOf(change);
  if (id === undefined) return [];
  const rule = parts.rules.find((other) => other.id === id);
  return [{ id, ...present(rule && (rule.advice?.summary ?? rule.title)) }];
}

const present = (now: string | undefined): { now?: string } => (now === undefined ? {} : { now });

/** An added rule amends the one it follows, if it names one. */
function ruleOf(change: Exclude<Change, { set: unknown } | { stock: unknown }>): string | undefined {
  if ('switchOff' in change) return change.switchOff;
  if ('replace' in change) return change.replace.id;
  if ('reword' in change) return change.reword.rule;
  if ('addText' in change) return change.addText.rule;
  if ('raise' in change) return change.raise.rule;
  return change.after;
}

function choiceText(path: string, { parameters, tables }: Parts): string | undefined {
  const [id, row, column] = path.split('/');
  if (row === undefined || column === undefined) {
    const parameter = parameters.get(path);
    return parameter && valueText(parameter.value);
  }
  const cell = tables.get(id!)?.rows[row]?.[column];
  return cell && valueText(cell.value);
}
