import type { WardBurden } from '@dwellset/authoring';
import { thousands } from '@dwellset/wording';
import { AutoScaleAxis, type BarChartData, type BarChartOptions } from 'chartist';
import { useMemo } from 'preact/hooks';
import { Bars } from '../../parts/Bars.tsx';

/** On how many days so many pieces of advice are given, each side beside the other; the table says it in words. */
export function Spread({ sides }: { sides: readonly WardBurden[] }) {
  const { data, options } = useMemo(() => chartOf(sides), sides);
  return (
    <figure class="spread">
      <figcaption>Patient-days by pieces of advice on the day</figcaption>
      <Bars data={data} options={options} />
      {sides.length > 1 && (
        <p class="aside key" aria-hidden="true">
          <span class="filled" /> as published <span class="hatched" /> with your changes
        </p>
      )}
    </figure>
  );
}

function chartOf(sides: readonly WardBurden[]): { data: BarChartData; options: BarChartOptions } {
  const longest = Math.max(...sides.map(({ daysByAdvice }) => daysByAdvice.length));
  const labels = Array.from({ length: longest }, (_, pieces) => String(pieces));
  return {
    data: {
      labels,
      series: sides.map(({ daysByAdvice }, at) => ({
        className: at === 0 ? 'published' : 'ours',
        data: labels.map((_, pieces) => daysByAdvice[pieces] ?? 0),
      })),
    },
    options: {
      height: '12rem',
      low: 0,
      seriesBarDistance: 14,
      chartPadding: { top: 20, right: 8, bottom: 0, left: 8 },
      axisX: { offset: 24, showGrid: false },
      axisY: {
        type: AutoScaleAxis,
        onlyInteger: true,
        offset: 44,
        scaleMinSpace: 36,
        labelInterpolationFnc: (days) => thousands(Number(days)),
      },
    },
  };
}

/** The fewest pieces of advice that are not exceeded on half of the days. */
export function usualAdvice({ daysByAdvice, patientDays }: WardBurden): number {
  let days = 0;
  return Math.max(
    0,
    daysByAdvice.findIndex((count) => {
      days += count;
      return days * 2 >= patientDays;
    }),
  );
}
