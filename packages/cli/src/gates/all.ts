import { GATES, type Gate } from '@dwellset/authoring';
import { secondEngine } from './secondEngine.ts';

/** What a set must pass before it is released, in the order in which it is reported. */
export const ALL_GATES: readonly Gate[] = [...GATES, secondEngine()];
