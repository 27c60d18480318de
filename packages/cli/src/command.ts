import type { Finished } from './cannotRun.ts';
import type { Given, OptionShape } from './options.ts';

/** One command: how it is called, and what it does. */
export interface Command {
  readonly name: string;
  /** Arguments and options as the help prints them, one after the other behind the name. */
  readonly usage: readonly string[];
  /** One sentence for the list of commands. */
  readonly summary: string;
  /** Further sentences for the command's own help. */
  readonly details: readonly string[];
  readonly options: Readonly<Record<string, OptionShape>>;
  /** Most arguments it takes besides options. */
  readonly atMost?: number;
  readonly run: (given: Given) => Promise<Finished> | Finished;
}

/** Where the rule documents are, for every command that reads them. */
export const POLICIES: Readonly<Record<string, OptionShape>> = { policies: { type: 'string', value: 'DIR' } };

/** Which rules run, for the commands that run them. */
export const RULES: Readonly<Record<string, OptionShape>> = {
  ...POLICIES,
  hospital: { type: 'string', value: 'DIR' },
  set: { type: 'string', multiple: true, value: 'ID' },
  allow: {
    type: 'string',
    multiple: true,
    value: 'STATE',
    oneOf: ['draft', 'retired', 'withdrawn', 'out-of-period'],
  },
};

/** Columns of the text: those of the terminal up to 80, and 80 where there is none. */
export const columns = (): number => Math.min(80, process.stdout.columns ?? 80);
