import { opened } from '../bench/client.ts';
import { go, route } from '../route.ts';

/** Moves to another rule set, on the same kind of page where it has one. */
export function SetPicker({ set }: { set: string }) {
  const [, , page] = route.value.parts;
  return (
    <label class="picker">
      <span>Rule set</span>
      <select
        value={set}
        onInput={(event) => go(['set', event.currentTarget.value, ...(page === 'choices' ? [page] : [])])}
      >
        {opened.value?.sets.map(({ id, release }) => (
          <option key={id} value={id}>
            {release.title}
          </option>
        ))}
      </select>
    </label>
  );
}
