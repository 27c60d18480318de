import type { Problem } from '../explain/assessment.ts';
import type { Case, CaseValue } from '../facts/case.ts';
import { type CaseReadings, readOption } from '../facts/readFacts.ts';
import type { Reading } from '../facts/reading.ts';
import type { Readings } from '../facts/readings.ts';
import type { Plan } from '../plan/plan.ts';
import { run } from '../plan/run.ts';
import type { StockItem } from '../release/release.ts';
import { BoardRead, isUsual } from './board.ts';

/** One option of a stock list, or the item in the hand, with what was read and every truth for it. */
export interface OptionEvaluation {
  readonly id: string;
  readonly title: string;
  readonly readings: Readings;
  readonly truths: Uint8Array;
  /** What is known of one fact beside the option, when it was recorded left open, without reading the others. */
  known(fact: string): Reading | undefined;
}

/** The item in the hand goes under this name beside the options. */
export const CHOSEN = 'chosen';

interface OptionsRead {
  readonly options: readonly OptionEvaluation[];
  readonly problems: readonly Problem[];
}

/** An option whose truths are bits among those of all others; what was read of it is put together when asked for. */
class OnBoard implements OptionEvaluation {
  readonly id: string;
  private readonly item: StockItem;
  private readonly board: BoardRead;
  private readonly option: number;

  constructor(board: BoardRead, option: number, item: StockItem, id: string) {
    this.board = board;
    this.option = option;
    this.item = item;
    this.id = id;
  }

  get title(): string {
    return this.item.title;
  }

  get readings(): Readings {
    return this.board.readingsOf(this.option);
  }

  get truths(): Uint8Array {
    return this.board.truthsOf(this.option);
  }

  known(fact: string): Reading | undefined {
    return this.board.readingOf(this.option, fact);
  }
}

/** The options of one case, by rule set and stock list: looked at when somebody asks for them. */
export class Options {
  private readonly plan: Plan;
  private readonly patient: CaseReadings;
  private readonly truths: Uint8Array;
  private readonly case: Case;
  private readonly board: BoardRead | undefined;
  private readonly lists = new Map<string, OptionsRead>();

  constructor(plan: Plan, patient: CaseReadings, truths: Uint8Array, stated: Case) {
    this.plan = plan;
    this.patient = patient;
    this.truths = truths;
    this.case = stated;
    this.board =
      plan.board && isUsual(patient.moment) ? new BoardRead(plan, plan.board, patient, truths) : undefined;
  }

  list(set: string, kind: string): OptionsRead {
    const key = `${set}/${kind}`;
    const known = this.lists.get(key) ?? this.readList(set, kind);
    this.lists.set(key, known);
    return known;
  }

  /** What is wrong with any of them, in the order of sets and lists. */
  get problems(): Problem[] {
    return this.plan.sets.flatMap(({ release, stock }) =>
      Object.keys(stock).flatMap((kind) => this.list(release.id, kind).problems),
    );
  }

  /** Every option of one stock list, and the item in the hand. */
  private readList(set: string, kind: string): OptionsRead {
    const stock = this.plan.sets.find(({ release }) => release.id === set)?.stock[kind];
    if (stock === undefined) return { options: [], problems: [] };
    const problems: Problem[] = [];
    const first = this.plan.board?.lists.find((list) => list.set === set && list.kind === kind)?.first ?? 0;
    const listed = (item: StockItem, id = item.id): OptionEvaluation => {
      const option = first + stock.indexOf(item);
      if (this.board && !this.board.hasProblem) return new OnBoard(this.board, option, item, id);
      return this.readAlone(kind, id, item.title, item.facts, true, problems);
    };
    const options = stock.map((item) => listed(item));
    const chosen = chosenOf(this.case, kind);
    if (chosen === undefined) return { options, problems };
    if (typeof chosen !== 'string') {
      options.push(this.readAlone(kind, CHOSEN, 'the item in the hand', chosen, false, problems));
      return { options, problems };
    }
    const item = stock.find((entry) => entry.id === chosen);
    if (item) options.push(listed(item, CHOSEN));
    else {
      const message = `the chosen ${kind} ${chosen} is not in the stock list`;
      problems.push({ code: 'unknown-option', message });
    }
    return { options, problems };
  }

  private readAlone(
    kind: string,
    id: string,
    title: string,
    facts: Readonly<Record<string, unknown>>,
    listed: boolean,
    problems: Problem[],
  ): OptionEvaluation {
    const read = readOption(this.plan.optionFacts, this.patient, facts, listed);
    for (const problem of read.problems) {
      problems.push({ ...problem, message: `${kind} ${id}: ${problem.message}` });
    }
    const truths = this.truths.slice();
    run(this.plan.option, read.readings.row, truths);
    return { id, title, readings: read.readings, truths, known: (fact) => read.readings.get(fact) };
  }
}

function chosenOf(patient: Case, kind: string): string | Readonly<Record<string, CaseValue>> | undefined {
  const chosen: unknown = (patient as unknown as Partial<Case> | null)?.chosen;
  if (typeof chosen !== 'object' || chosen === null || !Object.hasOwn(chosen, kind)) return undefined;
  const item = (chosen as Readonly<Record<string, unknown>>)[kind];
  if (typeof item === 'string') return item;
  return typeof item === 'object' && item !== null && !Array.isArray(item)
    ? (item as Readonly<Record<string, CaseValue>>)
    : undefined;
}
