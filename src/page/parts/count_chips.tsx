import { useId, useState } from 'preact/hooks';
import { Chip } from './chip';

interface CountChipsProps {
  readonly label: string;
  readonly offered: readonly number[];
  readonly chosen: ReadonlySet<number>;
  readonly onChange: (chosen: ReadonlySet<number>) => void;
}

const k_most_cans = 100;

/** Numbers of cans to choose from, and a field for one that is not among them. */
export function CountChips({ label, offered, chosen, onChange }: CountChipsProps) {
  const [typed, setTyped] = useState('');
  const otherId = useId();
  const all = [...new Set([...offered, ...chosen])].sort((a, b) => a - b);
  const toggled = (count: number): ReadonlySet<number> =>
    chosen.has(count) ? new Set([...chosen].filter((each) => each !== count)) : new Set([...chosen, count]);
  const add = (event: Event): void => {
    event.preventDefault();
    onChange(new Set([...chosen, Number(typed)]));
    setTyped('');
  };
  return (
    <fieldset class="chips">
      <legend>{label}</legend>
      {all.map((count) => (
        <Chip key={count} isPressed={chosen.has(count)} onPress={() => onChange(toggled(count))}>
          {count}
        </Chip>
      ))}
      <form onSubmit={add}>
        <label for={otherId}>Another</label>
        <input
          id={otherId}
          type="number"
          min={1}
          max={k_most_cans}
          required
          inputMode="numeric"
          value={typed}
          onInput={({ currentTarget }) => setTyped(currentTarget.value)}
        />
        <button type="submit" aria-label="Add this number">
          +
        </button>
      </form>
    </fieldset>
  );
}
