import type { DocumentKind } from '../documents/kinds.ts';
import { skeleton } from './confusables.ts';
import type { Cursor } from './cursor.ts';
import { reportDuplicates } from './duplicates.ts';
import type { Findings } from './findings.ts';
import { PLACES } from './places.ts';
import { baseName, folderOf, type Survey } from './survey.ts';

/** Whether a document stands where its kind belongs, under its own name. */
export function checkPlace(root: Cursor, kind: DocumentKind, find: Findings): void {
  const { path } = root.source;
  const [place, words, key] = PLACES[kind];
  if (!place.test(path)) {
    const message = `\`${path}\` is no place for a document of kind \`${kind}\``;
    find.report('misplaced-document', root.at('$schema'), { message, expected: words, received: path });
    return;
  }
  if (key === undefined) return;
  const at = root.at(key);
  const name = kind === 'rule-set' ? folderOf(path) : baseName(path);
  if (at.text === undefined || skeleton(at.text) === name) return;
  const message = `\`${key}\` is \`${at.text}\`, but the ${kind === 'rule-set' ? 'folder' : 'file'} is named \`${name}\``;
  find.report('name-mismatch', at, { message, expected: name, received: at.text });
}

/** Ids that may stand once only, across all documents of a library. */
export function checkUnique(survey: Survey, find: Findings): void {
  const ids = (kind: string, key: string) =>
    survey.ofKind(kind).flatMap((root) => root.at(key).items.map((entry) => entry.at('id')));
  const choices = [...ids('choices', 'parameters'), ...ids('choices', 'tables')];
  const dictionary = [...ids('facts', 'facts'), ...choices];
  // Facts and parameters share one space of names, since a text may place either.
  reportDuplicates(dictionary, 'a fact, parameter or table', find);
  for (const { root } of survey.sets.values()) {
    const derived = root.at('derived').items.map((entry) => entry.at('id'));
    const known = new Set(dictionary.map(({ text }) => skeleton(text ?? '')));
    for (const id of derived) {
      if (id.text === undefined || !known.has(skeleton(id.text))) continue;
      const message = `\`${id.text}\` is already the id of a fact of the dictionary or of a choice`;
      find.report('duplicate-id', id, { message, received: id.text });
    }
    reportDuplicates(derived, 'a derived fact', find);
  }
  checkSharedDerivations(survey, find);
  reportDuplicates(ids('sources', 'sources'), 'a source', find);
  reportDuplicates(ids('evidence', 'evidence'), 'evidence', find);
  reportDuplicates(ids('not-carried', 'rows'), 'a row that is not carried', find);
  reportDuplicates(ids('hazards', 'hazards'), 'a hazard', find);
}

/** A case is read once for all sets, so what two of them derive under one id must be the same fact. */
function checkSharedDerivations(survey: Survey, find: Findings): void {
  const first = new Map<string, { set: string; entry: Cursor }>();
  for (const { id: set, derived } of survey.sets.values()) {
    for (const [id, { entry }] of derived) {
      const before = first.get(id) ?? { set, entry };
      first.set(id, before);
      if (JSON.stringify(before.entry.value) === JSON.stringify(entry.value)) continue;
      const message = `\`${id}\` is derived here and in set \`${before.set}\`, but not in the same way`;
      find.report('duplicate-id', entry.at('id'), { message, received: id });
    }
  }
}

const RESERVED = new Set(['conclusion', 'now']);

/** Groups that the format keeps for itself. */
export function checkReserved(survey: Survey, find: Findings): void {
  for (const root of survey.ofKind('facts')) {
    const group = root.at('group');
    if (RESERVED.has(group.text ?? '')) reportReserved(group, group.text!, find);
    for (const entry of root.at('facts').items) checkGroup(entry.at('id'), group.text, find);
  }
  for (const root of survey.ofKind('choices')) {
    for (const entry of [...root.at('parameters').items, ...root.at('tables').items]) {
      const id = entry.at('id');
      const group = groupOf(id);
      if (group === 'option' || RESERVED.has(group)) reportReserved(id, group, find);
    }
  }
  for (const { root, shape } of survey.sets.values()) {
    for (const entry of root.at('derived').items) {
      const group = groupOf(entry.at('id'));
      const outside = group === 'option' && shape !== 'choice';
      const ofSet = group === 'conclusion' && entry.at('from').has('conclusion');
      if ((RESERVED.has(group) && !ofSet) || outside) reportReserved(entry.at('id'), group, find);
    }
  }
}

const groupOf = (id: Cursor): string => skeleton(id.text ?? '').split('.')[0]!;

function checkGroup(id: Cursor, group: string | undefined, find: Findings): void {
  if (id.text === undefined || group === undefined || groupOf(id) === group || !id.text.includes('.')) return;
  const message = `the fact \`${id.text}\` stands in the group \`${group}\``;
  find.report('name-mismatch', id, { message, expected: `${group}.…`, received: id.text });
}

function reportReserved(at: Cursor, group: string, find: Findings): void {
  const use = group === 'option' ? 'the facts of an option of stock' : 'what an evaluation gives';
  find.report('reserved-group', at, {
    message: `the group \`${group}\` is reserved for ${use}`,
    received: group,
  });
}
