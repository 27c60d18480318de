import { BarChart, type BarChartCreatedEvent, type BarChartData, type BarChartOptions } from 'chartist';
import { useEffect, useRef } from 'preact/hooks';

interface Props {
  readonly class?: string;
  readonly data: BarChartData;
  readonly options: BarChartOptions;
  /** Draws over the bars, on the scales that they have; another function draws anew. */
  readonly over?: (drawn: BarChartCreatedEvent) => void;
}

/** Bars that nobody needs to see: what they say stands beside them in words, so readers of the page pass them by. */
export function Bars({ class: own = '', data, options, over }: Props) {
  const place = useRef<HTMLDivElement>(null);
  const chart = useRef<BarChart | undefined>(undefined);
  const draw = useRef(over);
  draw.current = over;
  useEffect(() => {
    // The library writes into what it is handed.
    const given = structuredClone(data);
    if (chart.current) {
      chart.current.update(given, options);
      return;
    }
    chart.current = new BarChart(place.current, given, options);
    chart.current.on('created', (drawn) => draw.current?.(drawn));
  }, [data, options, over]);
  useEffect(() => () => void chart.current?.detach(), []);
  return <div ref={place} class={`bars ${own}`} aria-hidden="true" />;
}
