import { changeSchemas } from '../documents/amendment.ts';
import { checkSetName } from './adoptions.ts';
import { checkChange } from './changes.ts';
import { skeleton } from './confusables.ts';
import { type Context, type Local, setContext } from './context.ts';
import type { Cursor } from './cursor.ts';
import { readFact } from './entries.ts';
import { checkStatement } from './evidence.ts';
import { checkFact } from './facts.ts';
import { issuesOf, reportIssues } from './issues.ts';
import { checkDay } from './moments.ts';
import { didYouMean } from './nearest.ts';
import { shown } from './shapes.ts';
import { OWN_IN_CHANGE } from './structure.ts';
import { indexById } from './survey.ts';
import { checkWithdrawn } from './withdrawals.ts';

type Kind = keyof typeof changeSchemas;
const KINDS = Object.keys(changeSchemas) as Kind[];

/** What one hospital changes: its own facts, sources and evidence, then the changes set by set. */
export function checkAmendment(root: Cursor, outer: Context): void {
  const { find, survey } = outer;
  const context = { ...outer, owner: `amendment \`${root.at('id').text ?? ''}\`` };
  checkDay(root.at('date'), context);
  const names = (key: string) => new Set(indexById(root.at(key).items, () => true).keys());
  const local: Local = { facts: indexById(root.at('facts').items, readFact), evidence: names('evidence') };
  const facts = new Map([...local.facts, ...context.facts]);
  const evidence = new Set([...survey.evidence, ...local.evidence]);
  for (const fact of local.facts.values()) checkFact(fact, { ...context, facts });
  const sources = new Set([...survey.sources, ...names('sources')]);
  for (const entry of root.at('evidence').items) checkStatement(entry, { ...context, evidence }, sources);
  for (const amended of root.at('amends').items) {
    checkSetName(amended.at('set'), context);
    checkWithdrawn(amended.at('set'), amended.at('version'), context);
    const set = survey.sets.get(skeleton(amended.at('set').text ?? ''));
    for (const change of amended.at('changes').items) {
      const kind = checkChangeShape(change, context);
      if (kind === undefined || set === undefined) continue;
      const inSet = { ...setContext(survey, set, find, local), owner: context.owner };
      checkChange(kind, change, set, addedBefore(amended, change), inSet);
    }
  }
}

/** Rules that earlier changes of the same set add, so that later ones may name them. */
function addedBefore(amended: Cursor, change: Cursor): readonly string[] {
  const changes = amended.at('changes').items;
  const before = changes.slice(
    0,
    changes.findIndex(({ pointer }) => pointer === change.pointer),
  );
  return before.flatMap((earlier) => earlier.at('add').at('id').text ?? []);
}

/** The one key that tells the kind of a change; nothing where it cannot be told. */
function checkChangeShape(change: Cursor, { find, owner }: Context): Kind | undefined {
  const kinds = KINDS.filter((kind) => change.has(kind));
  const [kind, second] = kinds;
  if (kind !== undefined && second === undefined) {
    const schema = changeSchemas[kind];
    reportIssues(issuesOf(schema, change.value), change, schema, OWN_IN_CHANGE, find);
    return kind;
  }
  if (second !== undefined) {
    const later = change.keys.filter((key) => kinds.some((k) => k === key))[1] ?? second;
    const message = `a change of ${owner} has both \`${kind}\` and \`${second}\``;
    find.report('two-keys-in-node', change.at(later), {
      part: 'key',
      message,
      expected: 'one kind of change',
    });
    return undefined;
  }
  const misspelt = change.keys.find((key) => didYouMean(key, KINDS).hint !== undefined);
  const message =
    misspelt === undefined
      ? `a change of ${owner} does not say what it changes`
      : `the key \`${misspelt}\` in ${owner} is not known here`;
  find.report(
    misspelt === undefined ? 'wrong-shape' : 'unknown-key',
    misspelt === undefined ? change : change.at(misspelt),
    {
      ...(misspelt !== undefined && { part: 'key' as const }),
      message,
      expected: KINDS.join(', '),
      received: misspelt ?? shown(change.value),
      ...didYouMean(misspelt ?? '', KINDS),
    },
  );
  return undefined;
}
