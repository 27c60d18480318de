import {
  elementScroll,
  observeElementOffset,
  observeElementRect,
  type VirtualItem,
  Virtualizer,
} from '@tanstack/virtual-core';
import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useMemo, useState } from 'preact/hooks';

export interface VisibleRows {
  readonly items: readonly VirtualItem[];
  readonly before: number;
  readonly after: number;
  scrollTo(row: number): void;
}

/** Which rows of a long table have to be drawn; all rows are `height` px high. */
export function useRows(scroller: RefObject<HTMLElement | null>, count: number, height: number): VisibleRows {
  const [, redraw] = useState(0);
  const options = {
    count,
    getScrollElement: () => scroller.current,
    estimateSize: () => height,
    overscan: 6,
    observeElementRect,
    observeElementOffset,
    scrollToFn: elementScroll,
    onChange: () => redraw((drawn) => drawn + 1),
  };
  const virtual = useMemo(() => new Virtualizer<HTMLElement, HTMLElement>(options), []);
  virtual.setOptions({ ...virtual.options, ...options });
  useLayoutEffect(() => virtual._didMount(), []);
  useLayoutEffect(() => virtual._willUpdate());
  useEffect(() => virtual.measure(), [height]);
  const items = virtual.getVirtualItems();
  const [first, last] = [items[0], items.at(-1)];
  return {
    items,
    before: first?.start ?? 0,
    after: virtual.getTotalSize() - (last?.end ?? 0),
    scrollTo: (row) => virtual.scrollToIndex(row),
  };
}
