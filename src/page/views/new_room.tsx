import { useSignal } from '@preact/signals';
import { useId, useState } from 'preact/hooks';
import { Refused } from '../engine/commands';
import { type BlankRoom, blankJobText } from '../job/blank_job';
import { openEmbedded } from '../job/job_desk';
import { Choice } from '../parts/choice';
import { EngineSays } from '../parts/engine_says';
import { Field } from '../parts/field';
import { type FieldProblems, problemsByField } from '../parts/field_problems';
import { TapeField } from '../parts/tape_field';

const k_usual = {
  imperial: { width: '14ft', depth: '12ft', ceiling: '8ft', eastDepth: '6ft', northWidth: '7ft' },
  metric: { width: '4.2 m', depth: '3.6 m', ceiling: '2.5 m', eastDepth: '1.8 m', northWidth: '2.1 m' },
} as const;

const k_begun: BlankRoom = { units: 'imperial', shape: 'rectangle', name: 'New room', ...k_usual.imperial };

type Length = 'width' | 'depth' | 'ceiling' | 'eastDepth' | 'northWidth';

const k_labels: Record<Length, string> = {
  width: 'Width, west to east',
  depth: 'Depth, south to north',
  eastDepth: 'a: depth of the east end',
  northWidth: 'b: width of the north end',
  ceiling: 'Ceiling, above the floor',
};

const k_nothing_wrong: FieldProblems<Length> = { beside: {}, rest: '' };

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
  const asked = useSignal(k_begun); // what was typed last counts, though nothing was drawn since
  const [wrong, setWrong] = useState(k_nothing_wrong);
  const [isMaking, setMaking] = useState(false);
  const wrongId = useId();
  const { units, shape, name, ...lengths } = asked.value;
  const set = async (part: Partial<BlankRoom>): Promise<string> => {
    asked.value = { ...asked.value, ...part };
    return '';
  };
  const make = async (event: Event): Promise<void> => {
    event.preventDefault();
    setMaking(true);
    const room = asked.value;
    try {
      const text = await blankJobText(room);
      await openEmbedded({ name: `${room.name}.toml`, text, files: {} });
      onDone();
    } catch (why) {
      if (!(why instanceof Refused)) throw why;
      const { width, depth, ceiling, eastDepth, northWidth } = room;
      const used = room.shape === 'L' ? { width, depth, ceiling, eastDepth, northWidth } : { width, depth, ceiling };
      setWrong(problemsByField<Length>(why.message, { eastDepth: '', northWidth: '', ...used }));
    } finally {
      setMaking(false);
    }
  };
  const length = (key: Length) => (
    <TapeField
      label={k_labels[key]}
      value={lengths[key]}
      units={units}
      found={wrong.beside[key]}
      onCommit={(text) => set({ [key]: text })}
    />
  );
  return (
    <form class="new-room" aria-describedby={wrongId} onSubmit={(event) => void make(event)}>
      <Choice
        legend="Measured in"
        choices={{ imperial: 'Feet, inches', metric: 'Metres' }}
        chosen={units}
        onChoose={(chosen) => void set({ units: chosen, ...k_usual[chosen] })}
      />
      <Choice
        legend="Shape"
        choices={{ rectangle: 'Rectangle', L: 'L' }}
        chosen={shape}
        onChoose={(chosen) => void set({ shape: chosen })}
      />
      <Field label="Name" value={name} onCommit={(text) => set({ name: text })} />
      {length('width')}
      {length('depth')}
      {shape === 'L' && (
        <>
          <LShape />
          {length('eastDepth')}
          {length('northWidth')}
        </>
      )}
      {length('ceiling')}
      <EngineSays id={wrongId} text={wrong.rest} />
      <button type="submit" class="main" disabled={isMaking}>
        Make this room, with four cans
      </button>
    </form>
  );
}
