import type { ComponentChildren } from 'preact';
import { useId, useState } from 'preact/hooks';
import { Refused } from '../engine/commands';
import { type BlankRoom, blankJobText } from '../job/blank_job';
import { openEmbedded } from '../job/job_desk';
import { Choice } from '../parts/choice';
import { EngineSays } from '../parts/engine_says';

const k_usual = {
  imperial: { width: '14ft', depth: '12ft', ceiling: '8ft', eastDepth: '6ft', northWidth: '7ft' },
  metric: { width: '4.2 m', depth: '3.6 m', ceiling: '2.5 m', eastDepth: '1.8 m', northWidth: '2.1 m' },
} as const;

const k_begun: BlankRoom = { units: 'imperial', shape: 'rectangle', name: 'New room', ...k_usual.imperial };

interface FieldProps {
  readonly label: ComponentChildren;
  readonly value: string;
  readonly onValue: (value: string) => void;
}

function Field({ label, value, onValue }: FieldProps) {
  return (
    <label class="field">
      {label}
      <input required autocomplete="off" value={value} onInput={({ currentTarget }) => onValue(currentTarget.value)} />
    </label>
  );
}

/** The L, and which of its edges the fields mean. */
function LShape() {
  return (
    <svg class="l-shape" viewBox="0 0 120 90" role="img" aria-label="An L: the corner that is missing is the northeast one">
      <path d="M20 10h40v35h40v30H20z" />
      <text x="40" y="24">b</text>
      <text x="90" y="64">a</text>
    </svg>
  );
}

/** Asks for a new room and opens it. */
export function NewRoom({ onDone }: { onDone: () => void }) {
  const [asked, setAsked] = useState(k_begun);
  const [wrong, setWrong] = useState('');
  const [isMaking, setMaking] = useState(false);
  const wrongId = useId();
  const set = (part: Partial<BlankRoom>): void => setAsked({ ...asked, ...part });
  const make = async (event: Event): Promise<void> => {
    event.preventDefault();
    setMaking(true);
    try {
      const text = await blankJobText(asked);
      await openEmbedded({ name: `${asked.name}.toml`, text, files: {} });
      onDone();
    } catch (why) {
      if (!(why instanceof Refused)) throw why;
      setWrong(why.message);
    } finally {
      setMaking(false);
    }
  };
  return (
    <form class="new-room" aria-describedby={wrongId} onSubmit={(event) => void make(event)}>
      <Choice
        legend="Measured in"
        choices={{ imperial: 'Feet, inches', metric: 'Metres' }}
        chosen={asked.units}
        onChoose={(units) => set({ units, ...k_usual[units] })}
      />
      <Choice
        legend="Shape"
        choices={{ rectangle: 'Rectangle', L: 'L' }}
        chosen={asked.shape}
        onChoose={(shape) => set({ shape })}
      />
      <Field label="Name" value={asked.name} onValue={(name) => set({ name })} />
      <Field label="Width, west to east" value={asked.width} onValue={(width) => set({ width })} />
      <Field label="Depth, south to north" value={asked.depth} onValue={(depth) => set({ depth })} />
      {asked.shape === 'L' && (
        <>
          <LShape />
          <Field label="a: depth of the east end" value={asked.eastDepth} onValue={(eastDepth) => set({ eastDepth })} />
          <Field label="b: width of the north end" value={asked.northWidth} onValue={(northWidth) => set({ northWidth })} />
        </>
      )}
      <Field label="Ceiling, above the floor" value={asked.ceiling} onValue={(ceiling) => set({ ceiling })} />
      <EngineSays id={wrongId} text={wrong} />
      <button type="submit" class="main" disabled={isMaking}>
        Make this room, with four cans
      </button>
    </form>
  );
}
