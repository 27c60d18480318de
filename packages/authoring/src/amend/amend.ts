import type { AmendmentRecord } from '@dwellset/core';
import { gather } from '../build/gather.ts';
import { type Parts, partsOf } from '../build/parts.ts';
import { usedBySet } from '../build/used.ts';
import { type Diagnostic, inDocumentOrder } from '../diagnostic.ts';
import type { AmendedSet, AmendmentDocument } from '../documents/amendment.ts';
import type { Library } from '../library/shape.ts';
import { applyChoices, citeChoices } from './applyChoices.ts';
import { valueText } from './cautious.ts';
import { type Changed, changeRules } from './changeRules.ts';
import { checkChanged } from './checkChanged.ts';
import { compareBase } from './compareBase.ts';
import { addLocalDocuments } from './localDocuments.ts';
import { lockedUses } from './lockedUses.ts';
import { protectLocked } from './protectLocked.ts';
import { recordOf } from './record.ts';
import { Refusals } from './refusals.ts';
import { type ChoiceMade, setChoice } from './setChoice.ts';

export interface AmendedPart {
  readonly parts: Parts;
  /** Absent where nothing in the set is changed. */
  readonly record?: AmendmentRecord;
}

/** What an amendment makes of every set; where it is refused, nothing is amended. */
export interface Amended {
  readonly refused: readonly Diagnostic[];
  readonly sets: ReadonlyMap<string, AmendedPart>;
  /** Choices in force in every set that uses them. */
  readonly choices: readonly ChoiceMade[];
}

export interface AmendOptions {
  /** Takes the published base as it stands, whichever the amendment names: for pinning it. */
  readonly anyBase?: boolean;
}

/** Applies a hospital's amendment to the present documents, as a whole or not at all. */
export function amend(
  library: Library,
  hospital: string,
  { anyBase = false }: AmendOptions = {},
): Amended | undefined {
  const placed = library.hospitals.get(hospital)?.amendment;
  if (placed === undefined) return undefined;
  const refusals = new Refusals(placed.document);
  const withLocal = addLocalDocuments(library, placed.value, refusals);
  const published = new Map([...library.sets].map(([id, set]) => [id, partsOf(library, set)] as const));
  const base = new Map([...published].map(([id, parts]) => [id, withLocal(parts)] as const));
  const changed = new Map<string, Changed>();
  placed.value.amends.forEach((entry, index) => {
    const pointer = `/amends/${index}`;
    const parts = base.get(entry.set);
    if (parts === undefined)
      refusals.add(`${pointer}/set`, 'unknown-set', `there is no rule set \`${entry.set}\``);
    else if (changed.has(entry.set))
      refusals.add(`${pointer}/set`, 'changed-twice', `\`${entry.set}\` is already amended above`);
    else if (anyBase || standsOnBase(entry, published.get(entry.set)!, pointer, refusals)) {
      changed.set(entry.set, changeRules(parts, entry.changes, pointer, refusals));
    }
  });
  const choices = makeChoices(placed.value, published, changed, refusals);
  const sets = new Map<string, AmendedPart>();
  for (const [id, before] of base) {
    const change = changed.get(id);
    const amended = citeChoices(applyChoices(change?.parts ?? before, choices), choices);
    if (change) {
      checkChanged(amended, change.changes, refusals);
      protectLocked(before, amended, change.changes, refusals);
    }
    const record = recordOf(placed.value, published.get(id)!, amended, change?.recorded ?? [], choices);
    const parts: Parts = { ...amended, others: (other) => sets.get(other) };
    sets.set(id, { parts, ...(record && { record }) });
  }
  return { refused: inDocumentOrder(refusals.found), sets, choices };
}

function standsOnBase(entry: AmendedSet, parts: Parts, pointer: string, refusals: Refusals): boolean {
  const { release } = gather(parts);
  if (release) return compareBase(entry, release, parts, pointer, refusals);
  refusals.add(
    `${pointer}/set`,
    'broken-base',
    `\`${entry.set}\` refers to what nobody defines, so it cannot be amended`,
  );
  return false;
}

/** Every `set` of the document: each stands under a set that uses it and counts in all of them. */
function makeChoices(
  { amends }: AmendmentDocument,
  published: ReadonlyMap<string, Parts>,
  changed: ReadonlyMap<string, Changed>,
  refusals: Refusals,
): ChoiceMade[] {
  const locked = lockedUses(published.values());
  const made = new Map<string, ChoiceMade>();
  amends.forEach((entry, index) => {
    const parts = changed.get(entry.set)?.parts;
    if (parts === undefined) return;
    const used = usedBySet(parts);
    entry.changes.forEach((change, at) => {
      if (!('set' in change)) return;
      for (const [path, value] of Object.entries(change.set)) {
        const pointer = `/amends/${index}/changes/${at}/set/${path.replaceAll('/', '~1')}`;
        const wanted = { path, value, cited: change.evidence ?? [], reason: change.reason, pointer };
        const choice = setChoice(parts, wanted, locked, refusals);
        if (choice === undefined) continue;
        const earlier = made.get(path);
        if (!used.parameters.has(choice.id) && !used.tables.has(choice.id)) {
          refusals.add(pointer, 'unused-choice', `\`${entry.set}\` does not use \`${path}\``);
        } else if (earlier !== undefined && valueText(earlier.to) !== valueText(choice.to)) {
          const message = `\`${path}\` is already set to \`${valueText(earlier.to)}\`, and one value holds for every set`;
          refusals.add(pointer, 'changed-twice', message);
        } else if (earlier === undefined) made.set(path, choice);
      }
    });
  });
  return [...made.values()];
}
