import type { Forecast } from '@dwellset/core';
import { momentWords } from '@dwellset/wording';
import { type BarChartCreatedEvent, type BarChartData, type BarChartOptions, FixedScaleAxis } from 'chartist';
import { useCallback, useMemo } from 'preact/hooks';
import { Bars } from '../../parts/Bars.tsx';
import { midnights, thinned } from './midnights.ts';

interface Props {
  readonly forecast: Forecast;
  readonly zone: string;
  /** The moment looked at. */
  readonly at: string;
}

const MOST_DAYS = 7;

/**
 * What comes due when, drawn: at each moment of change a stroke up for every advice that begins and down for every
 * one that ends; a point where only outcomes change.
 */
export function DueChart({ forecast, zone, at }: Props) {
  const { data, options } = useMemo(() => chartOf(forecast, zone), [forecast, zone]);
  const now = useCallback(
    ({ svg, axisX, chartRect }: BarChartCreatedEvent) => {
      const place = chartRect.x1 + axisX.projectValue(Date.parse(at));
      svg.elem('line', { x1: place, x2: place, y1: chartRect.y1, y2: chartRect.y2 }, 'now');
    },
    [at],
  );
  return (
    <figure class="due-chart">
      <Bars data={data} options={options} over={now} />
      <figcaption class="aside">
        Up: advice that begins. Down: advice that ends. A point: only outcomes change. Days begin at the
        lines.
      </figcaption>
    </figure>
  );
}

function chartOf(
  { from, to, changes }: Forecast,
  zone: string,
): { data: BarChartData; options: BarChartOptions } {
  const [first, last] = [Date.parse(from), Date.parse(to)];
  const points = changes.map((change) => ({ x: Date.parse(change.at), ...change.advice }));
  const most = Math.max(1, ...points.flatMap((point) => [point.new.length, point.gone.length]));
  const ticks = thinned(midnights(first, last, zone), MOST_DAYS);
  return {
    data: {
      series: [
        { className: 'begins', data: points.map((point) => ({ x: point.x, y: point.new.length })) },
        { className: 'ends', data: points.map((point) => ({ x: point.x, y: -point.gone.length })) },
      ],
    },
    options: {
      height: '7rem',
      low: -most,
      high: most,
      chartPadding: { top: 8, right: 24, bottom: 0, left: 8 },
      axisX: {
        type: FixedScaleAxis,
        low: first,
        high: last,
        ticks,
        offset: 24,
        labelInterpolationFnc: (instant) =>
          momentWords(new Date(Number(instant)).toISOString(), zone).slice(5, 10),
      },
      axisY: { type: FixedScaleAxis, low: -most, high: most, ticks: [0], offset: 0, showLabel: false },
    },
  };
}
