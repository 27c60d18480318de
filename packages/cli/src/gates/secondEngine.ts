import { type Gate, releasesFor, vignetteSeeds } from '@dwellset/authoring';
import { compile } from '@dwellset/core';
import { crossCheck } from '@dwellset/crosscheck';

/** Every vignette of the set a second time on an independent engine; the caller may hand over another one. */
export const secondEngine = (engine: typeof crossCheck = crossCheck): Gate => ({
  id: 'second-engine',
  run: async ({ library, release }) => {
    const plan = compile(releasesFor(library, release.id), {
      allow: ['draft', 'retired', 'withdrawn', 'out-of-period'],
    });
    const found: string[] = [];
    for (const { name, case: patient } of vignetteSeeds(library, release.id)) {
      const { compared, disagreements } = await engine(plan, patient);
      // Two engines that were asked nothing would agree on everything.
      if (compared === 0) found.push(`${name}: 0`);
      for (const { set, rule, what } of disagreements) found.push(`${name}: ${set}/${rule ?? ''} ${what}`);
    }
    return found;
  },
});
