import type { Release } from '@dwellset/core';
import { canHold } from '../translate/condition.ts';
import { type Translation, toJsonRulesEngine } from '../translate/toJsonRulesEngine.ts';
import { type GroupEngine, groupEngine } from './groupEngine.ts';

/** One release, loaded: the engine of the patient's conditions, and one for each kind of stock. */
export interface SecondEngine {
  readonly patient: GroupEngine;
  readonly options: ReadonlyMap<string, GroupEngine>;
  /** Rules that nobody can bring to speak: switched off by an amendment, or scoped out by local choices alone. */
  readonly switchedOff: ReadonlySet<string>;
}

const loaded = new WeakMap<Release, SecondEngine>();

/** Translates and loads a release once; a release is frozen, so its object stands for what is in it. */
export function secondEngine(release: Release): SecondEngine {
  const known = loaded.get(release);
  if (known) return known;
  const translation = toJsonRulesEngine(release);
  const engine: SecondEngine = {
    patient: groupEngine(translation, translation.patient),
    options: new Map(
      Object.entries(translation.options).map(([kind, group]) => [kind, groupEngine(translation, group)]),
    ),
    switchedOff: switchedOff(release, translation),
  };
  loaded.set(release, engine);
  return engine;
}

function switchedOff(release: Release, translation: Translation): ReadonlySet<string> {
  const byAmendment = release.rules.filter((rule) => rule.local?.change === 'switched-off');
  const byChoice = translation.patient.rules.filter(
    ({ event, conditions }) =>
      event.type === 'possibly' && event.params.part === 'scope' && !canHold(conditions),
  );
  return new Set([
    ...byAmendment.map((rule) => rule.id),
    ...byChoice.flatMap(({ event }) => event.params.rule ?? []),
  ]);
}
