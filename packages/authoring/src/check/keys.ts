import { type EvidenceStatus, STATUSES } from '@dwellset/core';
import { caseContext } from './cases.ts';
import { checkFactValues } from './caseValues.ts';
import { checkChosen } from './chosen.ts';
import { skeleton } from './confusables.ts';
import { type Context, factNamed } from './context.ts';
import type { Cursor } from './cursor.ts';
import { reportDuplicates } from './duplicates.ts';
import { checkEvidenceIds } from './evidence.ts';
import type { Findings } from './findings.ts';
import { checkMoments } from './moments.ts';
import { didYouMean } from './nearest.ts';
import { indexById, type SetEntry, type Survey, stockOf } from './survey.ts';
import { checkSearched } from './vignettes.ts';

/** Parts of an answer that one set has to give, and the shape of such a set where it is one of a kind. */
const SETS: Readonly<Record<string, string | undefined>> = {
  conclusion: 'decision',
  advice: undefined,
  check: 'checklist',
  chosen: 'choice',
};

/** Answer keys: patients as facts that there are, and answers in sets, conclusions and rows that there are. */
export function checkKeys(surveyed: Survey, find: Findings): void {
  const roots = surveyed.ofKind('key');
  reportDuplicates(
    roots.map((root) => root.at('id')),
    'an answer key',
    find,
  );
  const known = indexById(
    surveyed.ofKind('evidence').flatMap((root) => root.at('evidence').items),
    bestStatus,
  );
  const context = caseContext(surveyed, find);
  for (const root of roots)
    checkKey(root, known, { ...context, owner: `key \`${root.at('id').text ?? ''}\`` });
}

function checkKey(root: Cursor, known: ReadonlyMap<string, number>, context: Context): void {
  const { find } = context;
  const cases = root.at('cases').items;
  checkSource(root.at('source'), context);
  checkPatient(root.at('base'), { ...context, owner: `the base patient of ${context.owner}` });
  reportDuplicates(
    cases.map((entry) => entry.at('id')),
    `a case of ${context.owner}`,
    find,
  );
  for (const entry of cases) {
    const own = { ...context, owner: `case \`${entry.at('id').text ?? ''}\` of ${context.owner}` };
    checkSource(entry.at('source'), own);
    checkPatient(entry, own);
    for (const at of entry.at('without').items) checkTakenAway(at, root.at('base').at('facts'), own);
    checkStatus(entry, known, own);
    checkAnswer(entry.at('answer'), own);
  }
}

function checkPatient(at: Cursor, context: Context): void {
  checkMoments(at, context);
  checkSearched(at.at('searched'), context);
  checkFactValues(at.at('facts'), context);
  const stock = new Map([...context.survey.sets.values()].flatMap((set) => [...stockOf(set)]));
  checkChosen(at.at('chosen'), stock, context);
}

function checkTakenAway(at: Cursor, base: Cursor, context: Context): void {
  if (factNamed(at, context) === undefined || base.has(at.text!)) return;
  const message = `${context.owner} takes away \`${at.text}\`, which the base patient does not have`;
  context.find.report('vignette-without-base', at, { message, received: at.text });
}

function checkSource(at: Cursor, { find, owner, survey }: Context): void {
  if (at.text === undefined || survey.sources.has(skeleton(at.text))) return;
  find.report('unknown-source', at, {
    message: `${owner} comes from the unknown source \`${at.text}\``,
    received: at.text,
    ...didYouMean(at.text, survey.sources),
  });
}

const rankOf = (status: Cursor): number => STATUSES.indexOf(status.text as EvidenceStatus);

/** How well the best of the sources of a statement is known: the lower the better. */
const bestStatus = (entry: Cursor): number =>
  Math.min(...entry.at('from').items.map((item) => rankOf(item.at('status'))));

/** What a row says is not known better here than the evidence that restates it is known. */
function checkStatus(entry: Cursor, known: ReadonlyMap<string, number>, { find, owner }: Context): void {
  const status = entry.at('status');
  const row = entry.at('row').text;
  const best = row === undefined ? undefined : known.get(skeleton(row));
  if (best === undefined || best === Infinity || rankOf(status) < 0 || rankOf(status) >= best) return;
  const expected = STATUSES[best] ?? '';
  find.report('status-raised', status, {
    message: `${owner} is \`${status.text}\`, but the evidence \`${row}\` is \`${expected}\` at best`,
    expected,
    received: status.text,
  });
}

function checkAnswer(answer: Cursor, context: Context): void {
  const { find, owner, survey } = context;
  if (answer.isObject && answer.keys.length === 0) {
    find.report('key-answers-nothing', answer, {
      message: `${owner} has no answer, so nothing can disagree`,
    });
  }
  for (const [part, body] of answer.entries) {
    checkEvidenceIds(body.at('restsOn'), context);
    const name = body.at('set');
    if (!Object.hasOwn(SETS, part) || name.text === undefined) continue;
    const set = survey.sets.get(name.text);
    if (set === undefined) {
      const near = didYouMean(name.text, survey.sets.keys());
      find.report('unknown-set', name, {
        message: `${owner} asks the unknown set \`${name.text}\``,
        received: name.text,
        ...near,
      });
    } else checkPart(part, body, set, context);
  }
}

function checkPart(part: string, body: Cursor, set: SetEntry, { find, owner }: Context): void {
  const shape = SETS[part];
  if (shape !== undefined && set.shape !== undefined && set.shape !== shape) {
    const message = `${owner} expects \`${part}\`, which a set of shape \`${set.shape}\` does not give`;
    find.report('vignette-wrong-word', body, { part: 'key', message, expected: `a ${shape} set` });
    return;
  }
  for (const at of body.at('is').items) {
    if (at.text === undefined || set.conclusions.has(at.text)) continue;
    const message = `${owner} expects the conclusion \`${at.text}\`, which set \`${set.id}\` does not have`;
    find.report('unknown-conclusion', at, {
      message,
      received: at.text,
      ...didYouMean(at.text, set.conclusions),
    });
  }
  const kind = body.at('of');
  if (part !== 'chosen' || kind.text === undefined || set.stock.has(kind.text)) return;
  find.report('unknown-stock-list', kind, {
    message: `${owner} names the unknown stock list \`${kind.text}\``,
    received: kind.text,
    ...didYouMean(kind.text, set.stock.keys()),
  });
}
