// Kinds of cans: which one a can is of, and what of it the plan needs to know.

import type { Can, Room } from '../engine/results';
import { change } from '../job/job_desk';
import { writtenAt } from '../job/written';
import { Icon } from '../parts/icon';
import { type Key, PathField, PathFields } from './plan_fields';
import { notice } from './plan_state';

const k_housing_kinds = [
  { value: 'remodel', label: 'remodel: in through the hole' },
  { value: 'new work', label: 'new work: set before the ceiling' },
];

const k_housing: readonly Key[] = [
  { key: 'width', label: 'Housing, width', form: 'length' },
  { key: 'length', label: 'Housing, length', form: 'length', hint: 'junction box and all' },
  { key: 'kind', label: 'Housing, kind', form: 'text', usual: 'remodel', choices: k_housing_kinds },
];

/** To begin with, for the leaflet tells; common practice, no source. */
const k_usual_housing: Record<Room['units'], { readonly width: string; readonly length: string }> = {
  imperial: { width: '6-1/2 in', length: '11 in' },
  metric: { width: '16 cm', length: '28 cm' },
};

/** What a type of cans needs of the ceiling. */
export function HoleFields({ room, can }: { room: Room; can: Can }) {
  const path = ['can_types', can.type];
  const housing = [...path, 'housing'];
  const set = async (): Promise<void> => {
    notice.value = await change([{ set: housing, value: k_usual_housing[room.units] }]);
  };
  const remove = async (): Promise<void> => {
    notice.value = await change([{ remove: housing }]);
  };
  return (
    <fieldset>
      <legend>Hole and housing of all cans of the type “{can.type}”</legend>
      <PathField
        path={[...path, 'hole']}
        label="Hole, diameter"
        form="length"
        hint="on the template in its box, or in its leaflet"
      />
      {writtenAt(housing) === undefined ? (
        <button type="button" onClick={() => void set()}>
          <Icon name="add" /> Its housing above the ceiling
        </button>
      ) : (
        <>
          <PathFields path={housing} keys={k_housing} />
          <p class="soft">As in its leaflet. Lopsided ones: twice the longer part.</p>
          <button type="button" onClick={() => void remove()}>
            <Icon name="remove" /> Remove its housing
          </button>
        </>
      )}
    </fieldset>
  );
}
