import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { didYouMean } from './nearest.ts';
import type { Survey } from './survey.ts';

/** Evidence ids in a list, wherever one stands. */
export function checkEvidenceIds(list: Cursor, { find, owner, evidence }: Context): void {
  for (const at of list.items) {
    if (at.text === undefined || evidence.has(skeleton(at.text))) continue;
    find.report('unknown-evidence', at, {
      message: `${owner} rests on the unknown evidence \`${at.text}\``,
      received: at.text,
      ...didYouMean(at.text, evidence),
    });
  }
}

/** One statement: it rests on at least one source of the register. */
export function checkStatement(entry: Cursor, outer: Context, sources: ReadonlySet<string>): void {
  const context = { ...outer, owner: `evidence \`${entry.at('id').text ?? ''}\`` };
  const { find, owner } = context;
  const from = entry.at('from');
  if (from.isList && from.items.length === 0) {
    find.report('evidence-without-source', from, { message: `${owner} rests on no source` });
  }
  for (const item of from.items) {
    const source = item.at('source');
    if (source.text === undefined || sources.has(skeleton(source.text))) continue;
    find.report('unknown-source', source, {
      message: `${owner} rests on the unknown source \`${source.text}\``,
      received: source.text,
      ...didYouMean(source.text, sources),
    });
  }
  checkEvidenceIds(entry.at('derivedFrom'), context);
}

/** Evidence that no rule, choice, change or other evidence rests on. */
export function checkUnusedEvidence(statements: readonly Cursor[], survey: Survey, { find }: Context): void {
  const used = new Set<string>();
  for (const { root } of survey.documents) addUsed(root, used);
  for (const entry of statements) {
    const id = entry.at('id');
    if (id.text === undefined || used.has(skeleton(id.text))) continue;
    find.report('evidence-unused', id, {
      message: `nothing rests on the evidence \`${id.text}\``,
      received: id.text,
    });
  }
}

/** A row is evidence here, or it is left out for a reason: never both. */
export function checkNotCarried(root: Cursor, { find, evidence }: Context): void {
  for (const row of root.at('rows').items) {
    const id = row.at('id');
    if (id.text === undefined || !evidence.has(skeleton(id.text))) continue;
    find.report('carried-and-not', id, {
      message: `\`${id.text}\` is said not to be carried, but it is evidence`,
      received: id.text,
    });
  }
}

function addUsed(cursor: Cursor, used: Set<string>): void {
  for (const item of cursor.items) addUsed(item, used);
  for (const [key, value] of cursor.entries) {
    const names = key === 'evidence' || key === 'derivedFrom' ? value.items : [];
    for (const { text } of names) if (text !== undefined) used.add(skeleton(text));
    addUsed(value, used);
  }
}
