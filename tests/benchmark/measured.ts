import {
  naiveOutcomes,
  type Outcomes,
  referenceOutcomes,
  TWO_VALUED,
  type Wrong,
  wrong,
} from './agreement.ts';
import type { Arguments } from './arguments.ts';
import { bitLap, lapsOf, manyLaps, WAYS } from './laps.ts';
import { interleaved, type Lap, type Sample } from './measure.ts';
import type { Subject } from './subject.ts';

/** Everything that one run found about one set of rules. */
export interface Measured {
  readonly name: string;
  readonly rules: number;
  readonly samples: ReadonlyMap<string, Sample>;
  readonly wrong: Readonly<Record<string, Wrong>>;
  readonly undetermined: number;
  /** Judging so many cases at once, read before and reading alone, in microseconds a case. */
  readonly many: readonly { readonly cases: number; readonly read: Sample; readonly judge: Sample }[];
}

/** From so many rules on, rounds are few. */
const LARGE = 8000;
/** More outcomes than this are cut short, as a round would take minutes. */
const MOST_OUTCOMES = 80_000_000;
const COMPARED = 200;

/** Rules that a local choice switches off are given to nobody. */
const running = (outcomes: Outcomes): Outcomes =>
  outcomes.map((row) => row.filter((outcome) => outcome !== 'switched-off'));

export async function measure(
  subject: Subject,
  options: Arguments,
  kind: 'invented' | 'shipped',
): Promise<Measured> {
  const few = Math.max(20, Math.min(COMPARED, Math.round(160_000 / subject.rules)));
  const wanted = kind === 'invented' ? naiveOutcomes(subject, few) : running(referenceOutcomes(subject, few));
  const shares: Record<string, Wrong> = {};
  for (const [name, make] of Object.entries(TWO_VALUED)) {
    shares[name] = await wrong(make(subject.plainRules), subject, wanted);
  }
  const open = wanted.flat().filter((outcome) => outcome === 'undetermined').length;
  const laps: Lap[] = [...(await lapsOf(subject))];
  const atOnce = laps.find(({ name }) => name === WAYS.columns)!.cases;
  if (kind === 'invented') laps.push(bitLap(subject, atOnce));
  const rounds = subject.rules >= LARGE ? Math.max(3, Math.round(options.rounds / 3)) : options.rounds;
  const samples = await interleaved(laps, rounds);
  const many: Measured['many'][number][] = [];
  for (const asked of kind === 'invented' ? options.cases : []) {
    const cases = Math.min(asked, Math.floor(MOST_OUTCOMES / subject.rules));
    const found = await interleaved(manyLaps(subject, cases), cases > 10_000 ? 2 : options.rounds);
    many.push({ cases, read: found.get(WAYS.reading)!, judge: found.get(WAYS.columns)! });
  }
  const { name, rules } = subject;
  return { name, rules, samples, wrong: shares, undetermined: open / (wanted.length * rules), many };
}
