import { derivationSchemas } from '../documents/derivation.ts';
import { checkAggregate } from './aggregates.ts';
import { checkConclusion } from './conclusions.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { checkBand, checkCountCodes, checkLookup } from './derivationCodes.ts';
import { kindIn } from './derivationKind.ts';
import { checkArithmetic, checkChosen, checkTime } from './derivationOperands.ts';
import type { FactEntry } from './entries.ts';
import { addConditionReferences, noReferences } from './references.ts';

type Kind = keyof typeof derivationSchemas;

/** The condition on an entry is read node by node, since a union answers one slip with a pile of errors. */
const OWN = /^\/[a-zA-Z]+\/where$/;

/** Checks how a fact is derived: one kind of the closed list, never nested, with types and units that fit. */
export function checkDerivation(fact: FactEntry, context: Context): void {
  const from = fact.entry.at('from');
  const kind = from.exists ? kindIn(from, derivationSchemas, OWN, context) : undefined;
  if (kind !== undefined) checkKind(kind, from, fact, context);
}

function checkKind(kind: Kind, from: Cursor, fact: FactEntry, context: Context): void {
  const body = from.at(kind);
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
      checkAggregate(kind, body, fact, context);
  }
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
