import type { WardBurden } from '@dwellset/authoring';
import { perDayWords, shareWords } from '@dwellset/wording';
import { useSignal } from '@preact/signals';
import { FixedScaleAxis } from 'chartist';
import { useMemo } from 'preact/hooks';
import { Bars } from '../../parts/Bars.tsx';
import { address } from '../../route.ts';
import { releaseOf } from '../../words.ts';
import { Spread, usualAdvice } from './Spread.tsx';

const FIRST = 12;

interface Sides {
  readonly base: WardBurden;
  readonly ours: WardBurden | undefined;
}

/** How much the ward would be told by each side, in figures and as bars of one scale. */
export function BurdenTable({ base, ours }: Sides) {
  const all = useSignal(false);
  const sides = ours ? [base, ours] : [base];
  const rows = rulesOf({ base, ours });
  const shown = all.value ? rows : rows.slice(0, FIRST);
  const most = Math.max(1, ...rows.flatMap(({ counts }) => counts.map(({ days }) => days)));
  const row = (label: string, cell: (one: WardBurden) => string) => (
    <tr>
      <th scope="row">{label}</th>
      {sides.map((one, at) => (
        <td key={at}>{cell(one)}</td>
      ))}
    </tr>
  );
  const heads = (
    <tr>
      <td />
      <th scope="col">as published</th>
      {ours && <th scope="col">with your changes</th>}
    </tr>
  );
  return (
    <section>
      <h2>Advice burden</h2>
      <table class="burden">
        <thead>{heads}</thead>
        <tbody>
          {row('Advice per patient-day', (one) => perDayWords(one.advice, one.patientDays))}
          {row('On half of the days, pieces of advice at most', (one) => String(usualAdvice(one)))}
          {row('On the day with the most, pieces of advice', (one) =>
            String(Math.max(0, one.daysByAdvice.length - 1)),
          )}
          {row('Of it, said on the day before too', (one) => shareWords(one.repeats, one.advice))}
          {row('Not decided, of rules that apply or are open', (one) =>
            shareWords(one.undetermined, one.undetermined + one.applies),
          )}
        </tbody>
      </table>
      <Spread sides={sides} />
      <h3>By rule, advice per patient-day</h3>
      <table class="burden">
        <thead>{heads}</thead>
        <tbody>
          {shown.map(({ set, rule, title, counts }) => (
            <tr key={`${set}/${rule}`}>
              <th scope="row">
                <a href={address(['set', set, 'rule', rule])}>{title}</a>
              </th>
              {counts.map(({ days, repeats }, at) => (
                <td key={at}>
                  <Share days={days} most={most} side={at === 0 ? 'published' : 'ours'} />
                  {perDayWords(days, sides[at]!.patientDays)}{' '}
                  <span class="aside">{shareWords(repeats, days)} repeated</span>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {rows.length > FIRST && (
        <button type="button" onClick={() => (all.value = !all.value)}>
          {all.value ? 'Show the most frequent only' : `Show all ${rows.length} rules that speak`}
        </button>
      )}
    </section>
  );
}

/** One bar of the scale that all rules share. */
function Share({ days, most, side }: { days: number; most: number; side: string }) {
  const { data, options } = useMemo(() => barOf(days, most, side), [days, most, side]);
  return <Bars data={data} options={options} />;
}

const barOf = (days: number, most: number, side: string) => ({
  data: { labels: [''], series: [{ className: side, data: [days] }] },
  options: {
    horizontalBars: true,
    height: '0.5rem',
    low: 0,
    high: most,
    chartPadding: 0,
    axisX: { type: FixedScaleAxis, low: 0, high: most, offset: 0, showLabel: false, showGrid: false },
    axisY: { offset: 0, showLabel: false, showGrid: false },
  },
});

/** Rules that speak on either side, the most frequent first. */
function rulesOf({ base, ours }: Sides) {
  const sides = ours ? [base, ours] : [base];
  const found = sides.map(({ rules }) => new Map(rules.map((one) => [`${one.set}/${one.rule}`, one])));
  const keys = new Map(sides.flatMap(({ rules }) => rules.map((one) => [`${one.set}/${one.rule}`, one])));
  return [...keys]
    .map(([key, { set, rule }]) => ({
      set,
      rule,
      title: releaseOf(set)?.rules.find(({ id }) => id === rule)?.title ?? rule,
      counts: found.map((side) => side.get(key) ?? { days: 0, repeats: 0 }),
    }))
    .sort(
      (a, b) => Math.max(...b.counts.map(({ days }) => days)) - Math.max(...a.counts.map(({ days }) => days)),
    );
}
