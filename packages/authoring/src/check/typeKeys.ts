import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { didYouMean } from './nearest.ts';
import { isCleanStep } from './steps.ts';

/** Keys that belong to some types only. */
const FITTING: Readonly<Record<string, readonly string[]>> = {
  unit: ['number'],
  step: ['number'],
  decimals: ['number'],
  limits: ['number'],
  usual: ['number'],
  range: ['number'],
  codes: ['code', 'codes'],
  unlisted: ['codes'],
  phrases: ['boolean'],
  monthMeans: ['date'],
  notBefore: ['date', 'date-time'],
  kind: ['list'],
  at: ['list'],
  item: ['list'],
};

/** Facts and parameters: keys that fit the type, and those that the type needs. */
export function checkTypeKeys(entry: Cursor, context: Context): void {
  const type = entry.at('type').text;
  if (type === undefined) return;
  const { find, owner, survey } = context;
  for (const key of entry.keys) {
    const types = FITTING[key];
    if (types === undefined || types.includes(type)) continue;
    const message = `\`${key}\` does not fit ${owner}, which is of type ${type}`;
    find.report('fact-key-not-fit', entry.at(key), { part: 'key', message, expected: types.join(' or ') });
  }
  const needed = type === 'number' ? 'unit' : type === 'code' || type === 'codes' ? 'codes' : undefined;
  if (needed !== undefined && !entry.has(needed) && !find.isMisspelt(entry, needed)) {
    const message = `${owner} is of type ${type} and needs the key \`${needed}\``;
    find.report('missing-key', entry, { message, expected: needed });
  }
  checkListName(entry.at('codes'), owner, survey.lists.keys(), context);
  const step = entry.at('step');
  if (step.number !== undefined && step.number > 0 && !isCleanStep(step.number)) {
    const message = `the step of ${owner} is no power of ten or multiple of one`;
    find.report('bad-step', step, { message, received: String(step.number) });
  }
}

/** The name of a code list, wherever one stands. */
export function checkListName(
  at: Cursor,
  owner: string,
  lists: Iterable<string>,
  { find }: Pick<Context, 'find'>,
): void {
  const known = [...lists];
  if (at.text === undefined || known.includes(at.text)) return;
  find.report('unknown-code-list', at, {
    message: `${owner} names the unknown code list \`${at.text}\``,
    received: at.text,
    ...didYouMean(at.text, known),
  });
}

/** Limits and the usual band: each rises, and what is usual is possible. */
export function checkBands(entry: Cursor, { find, owner }: Context): void {
  const limits = entry.at('limits').band;
  const usual = entry.at('usual').band;
  for (const key of ['limits', 'usual'] as const) checkOrder(entry.at(key), owner, { find });
  if (!limits || !usual || limits[0] > limits[1] || usual[0] > usual[1]) return;
  if (usual[0] >= limits[0] && usual[1] <= limits[1]) return;
  const message = `the usual band ${usual.join(' to ')} of ${owner} leaves its limits ${limits.join(' to ')}`;
  find.report('limits-order', entry.at('usual'), {
    message,
    expected: limits.join(' to '),
    received: usual.join(' to '),
  });
}

/** Low first, then high. */
export function checkOrder(at: Cursor, owner: string, { find }: Pick<Context, 'find'>): void {
  const ends = at.band;
  if (!ends || ends[0] <= ends[1]) return;
  const message = `\`${at.key}\` of ${owner} has its ends in the wrong order: ${ends[0]} before ${ends[1]}`;
  find.report('limits-order', at, {
    message,
    expected: `${ends[1]}, ${ends[0]}`,
    received: `${ends[0]}, ${ends[1]}`,
  });
}
