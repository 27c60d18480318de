import {
  and,
  type Case,
  evaluate,
  type Indicator,
  type Node,
  type Plan,
  type PlanRule,
  type PlanSet,
  ruleTruths,
  TRUE,
  type Truth,
  UNKNOWN,
} from '@dwellset/core';

/** One thing that a side says of a case. */
export interface Answer {
  /** A rule's id, or `conclusion`. */
  readonly subject: string;
  /** `kind/option` where it is about one item of stock. */
  readonly item?: string;
  /** `applies`, `undetermined`, `silent`, `met`; of a conclusion its id, `?` behind it while provisional. */
  readonly state: string;
  readonly indicator?: Indicator;
}

const wordOf = (truth: Truth): string =>
  truth === TRUE ? 'applies' : truth === UNKNOWN ? 'undetermined' : 'silent';

/** Everything that one set says of a case, by a key that is the same on both sides. */
export function answersOf(plan: Plan, setId: string, patient: Case): ReadonlyMap<string, Answer> {
  const set = plan.sets.find(({ release }) => release.id === setId);
  const answers = new Map<string, Answer>();
  if (set === undefined) return answers;
  const evaluation = evaluate(plan, patient);
  const read =
    (truths: Uint8Array) =>
    (node: Node | undefined): Truth =>
      node === undefined ? TRUE : (truths[node.at] as Truth);
  const ofPatient = read(evaluation.truths);
  const states = new Map<string, string>();
  for (const rule of set.rules) {
    const { outcome, scope, when } = ruleTruths(set, rule, ofPatient);
    const state = stateOf(outcome, rule.expect !== undefined);
    states.set(rule.rule.id, state);
    const indicator = rule.rule.advice?.indicator;
    answers.set(rule.rule.id, { subject: rule.rule.id, state, ...(indicator && { indicator }) });
    const node = optionNode(rule);
    if (node === undefined || rule.rule.of === undefined || rule.switchedOff) continue;
    for (const option of evaluation.options(setId, rule.rule.of)) {
      const item = `${rule.rule.of}/${option.id}`;
      const truth = and(and(scope, when), read(option.truths)(node));
      answers.set(`${rule.rule.id} ${item}`, { subject: rule.rule.id, item, state: wordOf(truth) });
    }
  }
  if (set.release.conclusions) {
    const conclusion = conclusionOf(set, states, ofPatient);
    answers.set('conclusion', { subject: 'conclusion', state: conclusion });
  }
  return answers;
}

/** A rule that does not speak is silent for whatever reason; only a checklist tells met from not applicable. */
function stateOf(outcome: string, isCheck: boolean): string {
  if (outcome === 'applies' || outcome === 'undetermined') return outcome;
  return isCheck && outcome === 'does-not-apply' ? 'met' : 'silent';
}

const optionNode = ({ excludes, remarks, prefers }: PlanRule): Node | undefined =>
  excludes ?? remarks ?? (prefers && 'options' in prefers ? prefers.options : undefined);

function conclusionOf(
  { release, population, gate, rules }: PlanSet,
  states: ReadonlyMap<string, string>,
  truthOf: (node: Node | undefined) => Truth,
): string {
  const within = and(truthOf(population), truthOf(gate));
  const inState = (id: string, state: string): boolean =>
    rules.some(({ rule }) => rule.concludes === id && states.get(rule.id) === state);
  let settled = within !== UNKNOWN;
  for (const { id } of release.conclusions ?? []) {
    if (inState(id, 'applies')) return settled ? id : `${id}?`;
    if (inState(id, 'undetermined')) settled = false;
  }
  const last = within === 0 ? 'none' : (release.defaultConclusion?.id ?? 'none');
  return settled ? last : `${last}?`;
}
