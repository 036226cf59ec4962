// Kinds of cans: which one a can is of, and what of it the plan needs to know.

import type { Can, Room } from '../engine/results';
import { writtenAt } from '../job/written';
import { Icon } from '../parts/icon';
import { type Key, PathField, PathFields } from './plan_fields';
import { make } from './plan_state';

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

/** Which type a can is of, and what follows for the others and for types that no can has. */
export function TypeFields({ room, can }: { room: Room; can: Can }) {
  const choices = room.can_types.map(({ name, about }) => ({ value: name, label: about ? `${name}: ${about}` : name }));
  const others = room.cans.filter(({ type }) => type !== can.type);
  const unused = room.can_types.filter(({ name }) => room.cans.every(({ type }) => type !== name));
  return (
    <>
      <PathField path={['cans', can.number - 1, 'type']} label="Type" form="text" choices={choices} />
      {(others.length > 0 || unused.length > 0) && (
        <div class="actions">
          {others.length > 0 && (
            <button
              type="button"
              onClick={() =>
                void make(others.map(({ number }) => ({ set: ['cans', number - 1, 'type'], value: can.type })))
              }
            >
              Give all cans this type
            </button>
          )}
          {unused.map(({ name }) => (
            <button key={name} type="button" onClick={() => void make([{ remove: ['can_types', name] }])}>
              <Icon name="remove" /> Remove the type “{name}”: no can has it
            </button>
          ))}
        </div>
      )}
    </>
  );
}

/** What a type of cans needs of the ceiling. */
export function HoleFields({ room, can }: { room: Room; can: Can }) {
  const path = ['can_types', can.type];
  const housing = [...path, 'housing'];
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
        <button type="button" onClick={() => void make([{ set: housing, value: k_usual_housing[room.units] }])}>
          <Icon name="add" /> Its housing above the ceiling
        </button>
      ) : (
        <>
          <PathFields path={housing} keys={k_housing} />
          <p class="soft">As in its leaflet. Lopsided ones: twice the longer part.</p>
          <button type="button" onClick={() => void make([{ remove: housing }])}>
            <Icon name="remove" /> Remove its housing
          </button>
        </>
      )}
    </fieldset>
  );
}
