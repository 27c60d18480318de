import type { LocalVignetteResult } from '@dwellset/authoring';
import type { VignetteShown } from '@dwellset/wording';
import type { Policies } from './policies.ts';

/** Where a vignette stands in its file. */
export function shownVignette(result: LocalVignetteResult, policies: Policies): VignetteShown {
  const file = policies.library.sets.get(result.set)?.vignettes.get(result.rule);
  const index = file?.value.vignettes.findIndex(({ id }) => id === result.id) ?? 0;
  const range = file?.document.source.locate(`/vignettes/${index}`) ?? { line: 1, column: 1 };
  return { ...result, path: file ? policies.shown(file.document.path) : result.set, range };
}
