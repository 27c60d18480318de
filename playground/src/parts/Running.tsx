import type { Background } from '../background.ts';
import { settled } from '../bench/client.ts';

/** How the work is called while it runs and when it cannot. */
export interface RunningWords {
  readonly running: string;
  readonly failed: string;
  /** What is on the page once it was stopped. */
  readonly kept: string;
  readonly next: string;
  readonly again: string;
}

/** How far a longer piece of work is, with a way to end it and to begin it again. */
export function Running({ work, words }: { work: Background<never>; words: RunningWords }) {
  const { progress, failure, stopped, behind } = work;
  const again = (
    <button type="button" onClick={work.run}>
      {words.again}
    </button>
  );
  if (failure.value !== undefined) {
    return (
      <p role="alert">
        {words.failed}: {failure.value}. {again}
      </p>
    );
  }
  if (progress.value) {
    return (
      <div class="running">
        <label>
          <span>{words.running}</span> <progress value={progress.value.done} max={progress.value.of} />
        </label>{' '}
        <button type="button" onClick={work.stop}>
          Stop
        </button>
      </div>
    );
  }
  if (stopped.value) {
    return (
      <p role="status">
        Stopped. {words.kept}
        {again}
      </p>
    );
  }
  if (!behind.value) return null;
  return <p role="status">{settled.value ? words.next : 'The ledger is tried first …'}</p>;
}
