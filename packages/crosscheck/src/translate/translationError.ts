/** A release that has no exact translation; `problems` says why, one sentence each, in the release's order. */
export class TranslationError extends Error {
  readonly problems: readonly string[];

  constructor(release: string, problems: readonly string[]) {
    super(`\`${release}\` cannot be computed a second time: ${problems.join('; ')}`);
    this.name = 'TranslationError';
    this.problems = problems;
  }
}
