import type { Plan } from '../plan/plan.ts';
import { judgeCases } from './judgeCases.ts';
import { wordsFor } from './planes.ts';
import type { RuleOverCases } from './ruleBits.ts';
import { type Block, openColumns, type SharedColumns } from './sharedColumns.ts';

/** Rows of a block: columns and truths of so many stay in a processor's cache. */
const BLOCK_ROWS = 1024;

/** Places in the first words of the memory of a job. */
const NEXT = 0;
const DONE = 1;
const STOP = 2;
const CONTROL = 4;

const PARTS = ['applies', 'doesNotApply', 'undetermined', 'notInScope'] as const;
type Part = (typeof PARTS)[number];

/**
 * Judging shared columns in several threads. It may be posted to any of them; each takes the next block until none is
 * left or somebody says stop. What they write is bits, side by side in one piece of memory: nobody posts a result.
 */
export interface SharedJob {
  readonly memory: SharedArrayBuffer;
  readonly rows: number;
  readonly blockRows: number;
  /** By place: the rules of all sets in their order. */
  readonly rules: readonly string[];
}

/** Room for what the rules of a plan make of shared columns. Blocks are a multiple of 32 rows. */
export function sharedJob(plan: Plan, { rows }: SharedColumns, blockRows = BLOCK_ROWS): SharedJob {
  if (blockRows < 32 || blockRows % 32 !== 0) throw new RangeError(`a block of ${blockRows} rows`);
  const rules = plan.sets.flatMap(({ release, rules: own }) =>
    own.map(({ rule }) => keyOf(release.id, rule.id)),
  );
  const words = CONTROL + rules.length * PARTS.length * wordsFor(rows);
  return { memory: new SharedArrayBuffer(words * 4), rows, blockRows, rules };
}

/**
 * Judges blocks until none is left or the job is cancelled; called in as many threads as there are, with the same
 * rules. `readBy` is the plan that the columns were read for, where other rules are tried on them. Throws a RangeError
 * where the rules are not those of the job, or need something that was not shared.
 */
export function workOn(job: SharedJob, plan: Plan, shared: SharedColumns, readBy = plan): void {
  const places = new Map(job.rules.map((key, place) => [key, place]));
  for (let block = takeBlock(job); block; block = takeBlock(job)) {
    const judged = judgeCases(plan, openColumns(readBy, shared, block));
    for (const { release, rules } of plan.sets) {
      for (const { rule } of rules) {
        const place = places.get(keyOf(release.id, rule.id));
        if (place === undefined) throw new RangeError(`the rule ${release.id}/${rule.id} is not in the job`);
        const over = judged.rule(release.id, rule.id);
        for (const part of PARTS) bitsOf(job, place, part).set(over[part], block.from / 32);
      }
    }
    Atomics.add(controlOf(job), DONE, 1);
  }
}

/** Blocks that were judged, of how many; whether there will be more. */
export interface JobProgress {
  readonly done: number;
  readonly of: number;
  readonly cancelled: boolean;
}

export function progressOf(job: SharedJob): JobProgress {
  const control = controlOf(job);
  return {
    done: Atomics.load(control, DONE),
    of: Math.ceil(job.rows / job.blockRows),
    cancelled: Atomics.load(control, STOP) === 1,
  };
}

/** No thread takes another block; what is under way is finished. */
export function cancelJob(job: SharedJob): void {
  Atomics.store(controlOf(job), STOP, 1);
}

/** What a rule came to, a bit a case, as in {@link RuleOverCases}. Of a block that nobody judged all bits are clear. */
export function outcomesIn(job: SharedJob, set: string, rule: string): Pick<RuleOverCases, Part> {
  const place = job.rules.indexOf(keyOf(set, rule));
  if (place < 0) throw new RangeError(`no rule ${keyOf(set, rule)}`);
  return Object.fromEntries(PARTS.map((part) => [part, bitsOf(job, place, part)])) as Record<
    Part,
    Uint32Array
  >;
}

const keyOf = (set: string, rule: string): string => `${set}/${rule}`;

const controlOf = ({ memory }: SharedJob): Int32Array => new Int32Array(memory, 0, CONTROL);

function bitsOf({ memory, rows }: SharedJob, place: number, part: Part): Uint32Array {
  const words = wordsFor(rows);
  return new Uint32Array(memory, (CONTROL + (place * PARTS.length + PARTS.indexOf(part)) * words) * 4, words);
}

function takeBlock(job: SharedJob): Block | undefined {
  const control = controlOf(job);
  if (Atomics.load(control, STOP) === 1) return undefined;
  const from = Atomics.add(control, NEXT, 1) * job.blockRows;
  return from < job.rows ? { from, to: Math.min(job.rows, from + job.blockRows) } : undefined;
}
