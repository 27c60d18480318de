import { derivationSchemas } from '../documents/derivation.ts';
import { checkConclusion } from './conclusions.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { checkBand, checkCountCodes, checkLookup } from './derivationCodes.ts';
import { checkArithmetic, checkChosen, checkTime } from './derivationOperands.ts';
import type { FactEntry } from './entries.ts';
import { reportUnknownKey } from './entryKeys.ts';
import { issuesOf, reportIssues } from './issues.ts';
import { checkAggregate } from './lists.ts';
import { didYouMean } from './nearest.ts';
import { addConditionReferences, noReferences } from './references.ts';
import { shown } from './shapes.ts';

type Kind = keyof typeof derivationSchemas;
const KINDS = Object.keys(derivationSchemas) as Kind[];

/** Checks how a fact is derived: one kind of the closed list, never nested, with types and units that fit. */
export function checkDerivation(fact: FactEntry, context: Context): void {
  const { find } = context;
  const from = fact.entry.at('from');
  if (!from.exists) return;
  if (!from.isObject) {
    const message = `\`from\` of ${context.owner} must be an object with one kind of derivation`;
    find.report('wrong-shape', from, { message, expected: KINDS.join(', '), received: shown(from.value) });
    return;
  }
  const kinds = KINDS.filter((kind) => from.has(kind));
  const [kind, second] = kinds;
  if (kind === undefined) reportUnknown(from, context);
  else if (second !== undefined) {
    const later = from.keys.filter((key) => kinds.some((k) => k === key))[1] ?? second;
    const message = `${context.owner} is derived in two ways, \`${kind}\` and \`${second}\``;
    find.report('two-keys-in-node', from.at(later), { part: 'key', message, expected: 'one key' });
  } else {
    for (const key of from.keys) if (key !== kind) reportUnknownKey(from, key, [kind], context);
    checkKind(kind, from.at(kind), fact, context);
  }
}

function checkKind(kind: Kind, body: Cursor, fact: FactEntry, context: Context): void {
  const { find, owner } = context;
  const nested = nestedIn(body);
  if (nested !== undefined) {
    const message = `a derivation stands inside \`${kind}\` of ${owner}`;
    const hint = 'give the inner derivation a fact of its own and name that fact';
    find.report('derivation-nested', nested, { part: 'key', message, hint });
    return;
  }
  const from = fact.entry.at('from');
  const issues = issuesOf(derivationSchemas[kind], { [kind]: body.value });
  if (issues.length > 0) {
    reportIssues(issues, from, derivationSchemas[kind], undefined, find);
    return;
  }
  checkPlace(from, kind, context);
  switch (kind) {
    case 'elapsed':
    case 'calendarDays':
    case 'localHour':
      checkTime(kind, body, fact, context);
      return;
    case 'difference':
    case 'sum':
    case 'product':
    case 'ratio':
      checkArithmetic(kind, body, fact, context);
      return;
    case 'lowest':
    case 'highest':
    case 'firstRecorded':
      checkChosen(body, fact, context);
      return;
    case 'lookup':
      checkLookup(body, fact, context);
      return;
    case 'band':
      checkBand(body, fact, context);
      return;
    case 'countCodes':
      checkCountCodes(body, fact, context);
      return;
    case 'conclusion':
      checkConclusion(body, fact, context);
      return;
    default:
      checkAggregate(body, fact, context);
  }
}

/** An operand that is itself a derivation. */
function nestedIn(body: Cursor): Cursor | undefined {
  for (const part of [...body.items, ...body.entries.map(([, value]) => value)]) {
    const kind = KINDS.find((name) => part.has(name));
    if (kind !== undefined) return part.at(kind);
  }
  return undefined;
}

/** The dictionary is shared by all hospitals and sets, so nothing in it may hang on a local choice. */
function checkPlace(from: Cursor, kind: Kind, { find, owner, uses }: Context): void {
  if (uses !== undefined) return;
  const reached = noReferences();
  addConditionReferences(from, reached);
  const ofSet = kind === 'conclusion';
  if (kind !== 'lookup' && !ofSet && reached.parameters.size === 0) return;
  const what = ofSet ? 'a rule set' : 'a local choice';
  const message = `${owner} stands in the dictionary but is derived from ${what}`;
  find.report('derivation-misplaced', from.at(kind), {
    part: 'key',
    message,
    hint: 'move it to `derived` of the sets that use it',
  });
}

function reportUnknown(from: Cursor, { find, owner }: Context): void {
  const key = from.keys[0];
  if (key === undefined) {
    const message = `\`from\` of ${owner} names no kind of derivation`;
    find.report('unknown-derivation', from, { message, expected: KINDS.join(', ') });
    return;
  }
  const message = `${owner} is derived by the unknown \`${key}\``;
  find.report('unknown-derivation', from.at(key), {
    part: 'key',
    message,
    expected: KINDS.join(', '),
    received: key,
    ...didYouMean(key, KINDS),
  });
}
