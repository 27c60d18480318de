import { checkCaseValue } from './caseValues.ts';
import { skeleton } from './confusables.ts';
import { type Context, factNamed } from './context.ts';
import type { Cursor } from './cursor.ts';
import { reportDuplicates } from './duplicates.ts';
import { type FactEntry, unitOf } from './entries.ts';
import { checkMoments } from './moments.ts';
import { didYouMean } from './nearest.ts';

/** An invented ward: its stages follow earlier ones, and what they chart fits the dictionary. */
export function checkWard(root: Cursor, outer: Context): void {
  const { find } = outer;
  const context = { ...outer, owner: `ward \`${root.at('id').text ?? ''}\`` };
  checkMoments(root, context);
  checkBand(root.at('stayDays'), context);
  const stages = root.at('stages').items;
  reportDuplicates(
    stages.map((stage) => stage.at('id')),
    'a stage of the ward',
    find,
  );
  const all = stages.flatMap((stage) => stage.at('id').text ?? []);
  stages.forEach((stage, index) => {
    checkStageName(stage.at('after'), all.slice(0, index), context);
    checkStageName(stage.at('repeat').at('until'), all, context);
    for (const band of [stage.at('hours'), stage.at('lateHours'), stage.at('repeat').at('hours')])
      checkBand(band, context);
    for (const [, value] of stage.at('only').entries) factNamed(value, context, 'key');
    for (const fact of stage.at('instant').items) factNamed(fact, context);
    for (const [, draw] of stage.at('facts').entries) {
      const fact = factNamed(draw, context, 'key');
      if (fact !== undefined) checkDraw(draw, fact, context);
    }
  });
}

function checkStageName(at: Cursor, known: readonly string[], { find, owner }: Context): void {
  if (at.text === undefined || known.includes(skeleton(at.text))) return;
  const message = `${owner} has no stage \`${at.text}\` before this one`;
  find.report('unknown-stage', at, { message, received: at.text, ...didYouMean(at.text, known) });
}

/** From and to, neither below zero. */
function checkBand(at: Cursor, { find, owner }: Context): void {
  const { band } = at;
  if (band === undefined || (band[0] >= 0 && band[0] <= band[1])) return;
  find.report('limits-order', at, {
    message: `${band[0]} to ${band[1]} in ${owner} does not run upwards from 0`,
    received: `${band[0]} to ${band[1]}`,
  });
}

function checkDraw(draw: Cursor, fact: FactEntry, context: Context): void {
  const { find, owner } = context;
  if (draw.has('oneOf') === draw.has('between')) {
    const message = `\`${fact.id}\` in ${owner} needs exactly one of \`oneOf\` and \`between\``;
    find.report('draw-shape', draw, { part: 'key', message });
    return;
  }
  for (const choice of draw.at('oneOf').items) checkCaseValue(choice.at('value'), fact, context);
  const between = draw.at('between');
  if (!between.exists) return;
  if (fact.type !== 'number') {
    const message = `\`${fact.id}\` in ${owner} is no number, so it lies between nothing`;
    find.report('draw-shape', draw, { part: 'key', message });
    return;
  }
  // Both ends are judged like values that a case states.
  const unit = draw.at('unit').text ?? '1';
  const expected = unitOf(fact);
  if (unit !== expected) {
    const message = `\`${fact.id}\` in ${owner} is drawn in \`${unit}\`, but the fact is in \`${expected}\``;
    find.report('unit-mismatch', draw.has('unit') ? draw.at('unit') : between, {
      message,
      expected,
      received: unit,
    });
  }
  const { band } = between;
  const { limits } = fact;
  if (band === undefined) return;
  if (band[0] > band[1]) checkBand(between, context);
  else if (limits && (band[0] < limits[0] || band[1] > limits[1])) {
    find.report('impossible-value', between, {
      message: `${band[0]} to ${band[1]} for \`${fact.id}\` in ${owner} leaves what is possible, ${limits[0]} to ${limits[1]}`,
      expected: `${limits[0]} to ${limits[1]}`,
    });
  }
}
