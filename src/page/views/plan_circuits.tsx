// Which cans are switched or dimmed together, by which switch, and how the cable gets to them.

import type { Change } from '../engine/commands';
import type { Can, Room } from '../engine/results';
import { change } from '../job/job_desk';
import { keysAt, wordAt } from '../job/written';
import { Chip } from '../parts/chip';
import { SelectField } from '../parts/field';
import { type Key, PathFields } from './plan_fields';
import { addSwitch } from './plan_new';
import { make } from './plan_state';
import { pathOf, type Thing } from './plan_things';
import { circuitNames, newCircuit, onCircuit, someDimmer, workedBy } from './plan_wiring';

const k_none = '';
const k_new_dimmed = 'new, dimmed';
const k_new_switched = 'new, switched';
/** Before the name of a circuit, which may be any word. */
const k_on = 'on ';

function circuitChanges(can: Can, chosen: string): readonly Change[] {
  if (chosen.startsWith(k_on)) return [onCircuit(can.number, chosen.slice(k_on.length))];
  if (chosen !== k_none) return newCircuit([can], chosen === k_new_dimmed).changes;
  return can.circuit === null ? [] : [{ remove: ['cans', can.number - 1, 'circuit'] }];
}

const k_switch = 'switch';

/** Whether a circuit has a dimmer, and of which kind. */
function WorkedBy({ circuit }: { circuit: string }) {
  const dimmers = [...new Set([...keysAt(['dimmers']), someDimmer()])];
  const dimmer = wordAt(['circuits', circuit, 'dimmer']);
  return (
    <SelectField
      label="Worked by"
      value={dimmer === '' ? k_switch : k_on + dimmer}
      choices={[
        { value: k_switch, label: 'a plain switch' },
        ...dimmers.map((name) => ({ value: k_on + name, label: `a dimmer: ${name}` })),
      ]}
      onCommit={(chosen) => change(workedBy(circuit, chosen === k_switch ? null : chosen.slice(k_on.length)))}
    />
  );
}

/** The circuit of a can, and what belongs to the circuit. */
export function CircuitFields({ room, can }: { room: Room; can: Can }) {
  const { circuit } = can;
  const others = room.cans.filter((each) => each.circuit !== circuit);
  const its = room.switches.find(({ circuits }) => circuit !== null && circuits.includes(circuit));
  return (
    <fieldset>
      <legend>Circuit: what is switched or dimmed together</legend>
      <SelectField
        label="Circuit"
        value={circuit === null ? k_none : k_on + circuit}
        choices={[
          { value: k_none, label: 'none' },
          ...circuitNames().map((name) => ({ value: k_on + name, label: name })),
          { value: k_new_dimmed, label: 'a new one, dimmed' },
          { value: k_new_switched, label: 'a new one, switched' },
        ]}
        onCommit={(chosen) => change(circuitChanges(can, chosen))}
      />
      {circuit !== null && <WorkedBy circuit={circuit} />}
      {circuit === null ? (
        <p class="soft">Moods and the wiring plan need cans on circuits.</p>
      ) : (
        <>
          <p class="soft">{its ? `On the switch “${its.name}”.` : 'On no switch yet: the wiring plan leaves it out.'}</p>
          <div class="actions">
            {others.length > 0 && (
              <button type="button" onClick={() => void make(others.map((each) => onCircuit(each.number, circuit)))}>
                Put all cans on “{circuit}”
              </button>
            )}
            {!its && (
              <button type="button" onClick={() => void addSwitch(room)}>
                Add a switch for it
              </button>
            )}
          </div>
        </>
      )}
    </fieldset>
  );
}

/** Puts a circuit on a switch, off the one that it was on, or takes it off. */
function toggled(room: Room, thing: Thing, circuit: string): readonly Change[] {
  return room.switches.flatMap(({ number, circuits }): readonly Change[] => {
    const path = [...pathOf({ kind: 'switch', number }), 'circuits'];
    const without = circuits.filter((name) => name !== circuit);
    if (without.length < circuits.length) return [{ set: path, value: without }];
    return number === thing.number ? [{ set: path, value: [...circuits, circuit] }] : [];
  });
}

const k_cables: readonly Key[] = [
  {
    key: 'cable',
    label: 'Cable to the cans',
    form: 'text',
    usual: '14/2',
    choices: ['14/2', '12/2', '10/2'].map((value) => ({ value, label: value })),
  },
  {
    key: 'path',
    label: 'Its way',
    form: 'text',
    hint: 'straight over the joists of an open attic; or along the bays and through joists',
    usual: 'open',
    choices: [
      { value: 'open', label: 'open attic' },
      { value: 'bays', label: 'bays, joists' },
    ],
  },
  {
    key: 'framing',
    label: 'Joists are',
    form: 'text',
    hint: 'engineered: trusses, I-joists, laminated',
    usual: 'lumber',
    choices: [
      { value: 'lumber', label: 'solid lumber' },
      { value: 'engineered', label: 'engineered' },
    ],
  },
  {
    key: 'joist_depth',
    label: 'Depth of the joists',
    form: 'length',
    hint: 'as measured; empty: holes through them are not checked',
  },
];

/** What a switch works, and what else the wiring plan asks. */
export function SwitchFields({ room, thing }: { room: Room; thing: Thing }) {
  const its = room.switches[thing.number - 1]?.circuits ?? [];
  const cansOf = (name: string): string =>
    room.circuits.find((circuit) => circuit.name === name)?.cans.join(', ') || 'none';
  return (
    <>
      <fieldset class="chips">
        <legend>Circuits on this switch</legend>
        {circuitNames().map((name) => (
          <Chip key={name} isPressed={its.includes(name)} onPress={() => void make(toggled(room, thing, name))}>
            {name} (cans: {cansOf(name)})
          </Chip>
        ))}
      </fieldset>
      <fieldset>
        <legend>How the cable runs to all cans</legend>
        <PathFields path={['wiring']} keys={k_cables} />
      </fieldset>
    </>
  );
}
