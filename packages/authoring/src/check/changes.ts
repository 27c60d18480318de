import { INDICATORS } from '@dwellset/core';
import type { changeSchemas } from '../documents/amendment.ts';
import { skeleton } from './confusables.ts';
import { checkCode } from './constants.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { checkEvidenceIds } from './evidence.ts';
import { didYouMean } from './nearest.ts';
import { checkChoice, isPublished } from './parameters.ts';
import { checkRule } from './rules.ts';
import { checkStock } from './stock.ts';
import type { SetEntry } from './survey.ts';
import { checkPlaces, checkPlain, checkSummary } from './texts.ts';

/** One change of an amendment against the set that it changes; `added`: rules that earlier changes brought. */
export function checkChange(
  kind: keyof typeof changeSchemas,
  change: Cursor,
  set: SetEntry,
  added: readonly string[],
  context: Context,
): void {
  const body = change.at(kind);
  const rules = [...set.rules.keys(), ...added];
  checkEvidenceIds(change.at('evidence'), context);
  switch (kind) {
    case 'set':
      for (const [path, value] of body.entries) checkSet(path, value, change.has('evidence'), context);
      return;
    case 'switchOff':
      checkUnlocked(body, set, rules, 'switches off', context);
      return;
    case 'replace':
      checkUnlocked(body.at('id'), set, rules, 'replaces', context);
      checkRule(body, set, rules, context);
      return;
    case 'add':
      checkAdded(body.at('id'), rules, context);
      checkKnown(change.at('after'), rules, context);
      checkRule(body, set, [...rules, body.at('id').text ?? ''], context);
      return;
    case 'reword':
      checkUnlocked(body.at('rule'), set, rules, 'rewords', context);
      checkReworded(body, context);
      return;
    case 'addText':
      checkKnown(body.at('rule'), rules, context);
      for (const text of body.at('detail').items) checkPlaces(text, context);
      return;
    case 'raise':
      checkKnown(body.at('rule'), rules, context);
      checkRaised(body, set, context);
      return;
    case 'stock':
      checkStock(body, context);
  }
}

function checkKnown(at: Cursor, rules: readonly string[], { find, owner }: Context): void {
  if (at.text === undefined || rules.includes(skeleton(at.text))) return;
  const message = `${owner} names the unknown rule \`${at.text}\``;
  find.report('unknown-rule', at, { message, received: at.text, ...didYouMean(at.text, rules) });
}

function checkUnlocked(
  at: Cursor,
  set: SetEntry,
  rules: readonly string[],
  does: string,
  context: Context,
): void {
  checkKnown(at, rules, context);
  if (set.rules.get(skeleton(at.text ?? ''))?.at('locked').value !== true) return;
  context.find.report('locked-change', at, {
    message: `${context.owner} ${does} the locked rule \`${at.text}\``,
    hint: 'a locked rule may only gain text, a higher indicator or a more cautious parameter',
  });
}

function checkAdded(at: Cursor, rules: readonly string[], { find, owner }: Context): void {
  if (at.text === undefined || !rules.includes(skeleton(at.text))) return;
  const message = `${owner} adds the rule \`${at.text}\`, which there is already`;
  find.report('duplicate-id', at, { message, received: at.text, hint: 'use `replace` to change it' });
}

function checkReworded(body: Cursor, context: Context): void {
  const detail = body.at('detail');
  checkPlain(body.at('title'), context);
  for (const at of [body.at('summary'), body.at('because'), detail, ...detail.items])
    checkPlaces(at, context);
  checkSummary(body.at('summary'), context);
  if (body.keys.some((key) => key !== 'rule')) return;
  context.find.report('amendment-empty', body, {
    message: `a rewording in ${context.owner} changes no text`,
  });
}

function checkRaised(body: Cursor, set: SetEntry, { find, owner }: Context): void {
  const rule = set.rules.get(skeleton(body.at('rule').text ?? ''));
  const rank = (at: Cursor | undefined): number => (INDICATORS as readonly string[]).indexOf(at?.text ?? '');
  const [before, after] = [rank(rule?.at('advice').at('indicator')), rank(body.at('indicator'))];
  if (before < 0 || after < 0 || after > before) return;
  const message = `${owner} does not raise the indicator of \`${body.at('rule').text}\`, which is \`${INDICATORS[before]}\` already`;
  find.report('indicator-not-raised', body.at('indicator'), { message, received: body.at('indicator').text });
}

/** A parameter's id, or `table/code/column`. */
function checkSet(path: string, value: Cursor, cited: boolean, context: Context): void {
  const { find, owner, survey } = context;
  const [id = '', code, name] = path.split('/').map(skeleton);
  const parameter = code === undefined ? survey.parameters.get(id) : undefined;
  const table = code === undefined ? undefined : survey.tables.get(id);
  const column = table?.columns.get(name ?? '');
  const unknown = { part: 'key' as const, received: path };
  if (parameter !== undefined) {
    const positions = parameter.entry.at('positions').items;
    checkChoice(value, parameter, parameter.range, path, context);
    checkCited(value, positions, cited, path, context);
  } else if (table === undefined) {
    const among = code === undefined ? survey.parameters : survey.tables;
    const what = code === undefined ? 'parameter' : 'table';
    const message = `${owner} sets the unknown ${what} \`${id}\``;
    find.report(`unknown-${what}`, value, { ...unknown, message, ...didYouMean(id, among.keys()) });
  } else if (column === undefined) {
    const message = `the table \`${id}\` that ${owner} sets has no column \`${name ?? ''}\``;
    find.report('unknown-column', value, {
      ...unknown,
      message,
      ...didYouMean(name ?? '', table.columns.keys()),
    });
  } else {
    checkCode(value, code ?? '', table.key, id, context, 'key');
    const cell = table.entry
      .at('rows')
      .at(code ?? '')
      .at(name ?? '');
    if (value.value === null) return;
    checkChoice(value, column, cell.at('range').band, path, context);
    checkCited(value, cell.at('positions').items, cited, path, context);
  }
}

/** A value that none of the published sources stands for needs a local one. */
function checkCited(
  value: Cursor,
  positions: readonly Cursor[],
  cited: boolean,
  name: string,
  context: Context,
): void {
  const published = positions.map((position) => position.at('value').value);
  if (cited || published.length === 0 || isPublished(value.value, published)) return;
  context.find.report('value-without-evidence', value, {
    message: `${context.owner} sets \`${name}\` to a value that no published source stands for`,
    expected: published.map((position) => JSON.stringify(position)).join(', '),
    received: JSON.stringify(value.value),
    hint: 'cite the local source under `evidence`',
  });
}
