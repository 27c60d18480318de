import type { Case, Forecast } from '@dwellset/core';
import { forecastLines, momentWords } from '@dwellset/wording';
import { useEffect, useState } from 'preact/hooks';
import { ask, built } from '../../bench/client.ts';
import { words } from '../../words.ts';
import { DueChart } from './DueChart.tsx';

interface Props {
  readonly sets: readonly string[];
  readonly patient: Case;
  /** The moment looked at, if it is not the case's own. */
  readonly at: string | undefined;
  readonly onAt: (at: string | undefined) => void;
}

const HORIZONS: readonly (readonly [hours: number, words: string])[] = [
  [24, 'one day'],
  [72, 'three days'],
  [168, 'one week'],
  [720, '30 days'],
  [2160, '90 days'],
];

/** What comes due when, if nothing but time happens: a line of moments, and what each of them brings. */
export function Timeline({ sets, patient, at, onAt }: Props) {
  const [hours, setHours] = useState(72);
  const [found, setFound] = useState<Forecast | undefined>();
  useEffect(() => {
    let wanted = true;
    const wait = setTimeout(() => {
      ask('forecast', { side: 'ours', sets, patient, hours }).then(
        (forecast) => wanted && setFound(forecast),
        () => wanted && setFound(undefined),
      );
    }, 200);
    return () => {
      wanted = false;
      clearTimeout(wait);
    };
  }, [sets.join(), patient, hours, built.value]);
  const zone = patient.timeZone;
  const changes = found?.changes ?? [];
  const places = [found?.from ?? patient.asOf, ...changes.map((change) => change.at)];
  const current = Math.max(0, at === undefined ? 0 : places.indexOf(at));
  return (
    <section class="timeline" aria-labelledby="timeline">
      <h2 id="timeline">As time passes</h2>
      <p class="aside">Only time moves here: every entry is taken to stay as it is.</p>
      <label>
        Look ahead{' '}
        <select value={hours} onInput={(event) => setHours(Number(event.currentTarget.value))}>
          {HORIZONS.map(([count, said]) => (
            <option key={count} value={count}>
              {said}
            </option>
          ))}
        </select>
      </label>
      {found && changes.length === 0 && <p>Nothing changes in this time.</p>}
      {found && changes.length > 0 && (
        <>
          <DueChart forecast={found} zone={zone} at={places[current]!} />
          <label class="mover">
            <span class="unseen">Moment</span>
            <input
              type="range"
              min={0}
              max={changes.length}
              value={current}
              aria-valuetext={momentWords(places[current]!, zone)}
              onInput={(event) => {
                const place = Number(event.currentTarget.value);
                onAt(place === 0 ? undefined : places[place]);
              }}
            />
          </label>
          <p role="status">
            Shown as of <strong>{momentWords(places[current]!, zone)}</strong>
            {current > 0 && (
              <>
                {' '}
                <button type="button" onClick={() => onAt(undefined)}>
                  Back to now
                </button>
              </>
            )}
          </p>
          <ol class="plain due">
            {changes.map((change) => (
              <li key={change.at} class={change.at === at ? 'here' : undefined}>
                <button type="button" class="moment" onClick={() => onAt(change.at)}>
                  {momentWords(change.at, zone)}
                </button>
                <div>
                  {forecastLines(change, found, words.value).map(({ text, says }) => (
                    <p key={text}>
                      {text}
                      {says !== undefined && <span class="says-then"> “{says}”</span>}
                    </p>
                  ))}
                </div>
              </li>
            ))}
          </ol>
        </>
      )}
    </section>
  );
}
