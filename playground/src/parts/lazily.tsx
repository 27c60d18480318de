import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';

/** A part of the page that is fetched when it is first shown. Says so meanwhile, and if it cannot be fetched. */
export function lazily<P extends object>(
  load: () => Promise<ComponentType<P>>,
  what: string,
): ComponentType<P> {
  let known: ComponentType<P> | undefined;
  return function Lazy(props: P) {
    const [part, setPart] = useState<{ part?: ComponentType<P>; failed?: boolean }>(
      known ? { part: known } : {},
    );
    useEffect(() => {
      if (part.part) return;
      load().then(
        (found) => {
          known = found;
          setPart({ part: found });
        },
        () => setPart({ failed: true }),
      );
    }, []);
    const Part = part.part;
    if (Part) return <Part {...props} />;
    return (
      <p class="aside" role="status">
        {part.failed
          ? `${what} could not be fetched; everything else works without it.`
          : `${what} is being fetched …`}
      </p>
    );
  };
}
