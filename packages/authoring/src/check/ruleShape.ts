import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { didYouMean } from './nearest.ts';
import type { SetEntry } from './survey.ts';

const CHOICE_PARTS = ['excludes', 'prefers', 'remarks'] as const;

/** Whether a rule has the parts that the shape of its set asks for, and no others. */
export function checkRuleShape(rule: Cursor, set: SetEntry, context: Context): void {
  if (set.shape === undefined) return;
  checkCondition(rule, set.shape, context);
  if (set.shape === 'choice') checkChoice(rule, set, context);
  else checkNoChoice(rule, set.shape, context);
  checkConclusion(rule, set, context);
  const speaks =
    set.shape === 'advice' ||
    set.shape === 'checklist' ||
    (set.shape === 'decision' && !rule.has('concludes')) ||
    (set.shape === 'choice' && (rule.has('excludes') || rule.has('remarks')));
  const speech = ['advice', 'concludes'];
  if (!speaks || rule.has('advice') || context.find.isMisspelt(rule, ...speech)) return;
  const message = `${context.owner} has nothing to say: \`advice\` is missing`;
  context.find.report('missing-key', rule, { message, expected: 'advice' });
}

/** A check has `expect`, every other rule `when`; a choice rule may do without. */
function checkCondition(rule: Cursor, shape: string, { find, owner }: Context): void {
  const [needed, refused] = shape === 'checklist' ? ['expect', 'when'] : ['when', 'expect'];
  if (rule.has(refused)) {
    const message = `${owner} has \`${refused}\`, but a rule of ${article(shape)} set has \`${needed}\``;
    find.report('when-or-expect', rule.at(refused), {
      part: 'key',
      message,
      expected: needed,
      received: refused,
    });
  } else if (!rule.has(needed) && shape !== 'choice' && !find.isMisspelt(rule, needed)) {
    const message = `${owner} has no \`${needed}\`, so it could never be decided`;
    find.report('when-or-expect', rule, { message, expected: needed });
  }
}

const article = (shape: string): string => (shape === 'advice' ? 'an advice' : `a ${shape}`);

function checkChoice(rule: Cursor, set: SetEntry, { find, owner }: Context): void {
  const of = rule.at('of');
  if (!of.exists && !find.isMisspelt(rule, 'of')) {
    const message = `${owner} does not say under \`of\` which stock list it judges`;
    find.report('choice-rule-shape', rule, { message, expected: 'of' });
  } else if (of.text !== undefined && !set.stock.has(of.text)) {
    const message = `${owner} judges the unknown stock list \`${of.text}\``;
    find.report('unknown-stock-list', of, {
      message,
      received: of.text,
      ...didYouMean(of.text, set.stock.keys()),
    });
  }
  if (CHOICE_PARTS.some((part) => rule.has(part) || find.isMisspelt(rule, part))) return;
  const message = `${owner} neither excludes nor prefers nor remarks on an option`;
  find.report('choice-rule-shape', rule, { message, expected: CHOICE_PARTS.join(' or ') });
}

function checkNoChoice(rule: Cursor, shape: string, { find, owner }: Context): void {
  for (const part of ['of', ...CHOICE_PARTS]) {
    if (!rule.has(part)) continue;
    const message = `${owner} has \`${part}\`, but its set is of shape \`${shape}\` and judges no options`;
    find.report('choice-rule-shape', rule.at(part), { part: 'key', message });
  }
}

function checkConclusion(rule: Cursor, { shape, conclusions }: SetEntry, { find, owner }: Context): void {
  const concludes = rule.at('concludes');
  if (!concludes.exists) return;
  if (shape !== 'decision') {
    const message = `${owner} concludes something, but its set is of shape \`${shape}\` and has no conclusions`;
    find.report('decision-shape', concludes, { part: 'key', message });
  } else if (concludes.text !== undefined && !conclusions.has(concludes.text)) {
    const message = `${owner} concludes the unknown \`${concludes.text}\``;
    find.report('unknown-conclusion', concludes, {
      message,
      received: concludes.text,
      expected: [...conclusions].join(', '),
      ...didYouMean(concludes.text, conclusions),
    });
  }
}
