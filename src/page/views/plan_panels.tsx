// What is edited beside the plan: the selected thing, the room, what is new.

import { Fragment } from 'preact';
import type { Change } from '../engine/commands';
import type { Can, Room } from '../engine/results';
import { change, room as knownRoom } from '../job/job_desk';
import { isListAt, keysAt, type Path, wordAt, writtenAt } from '../job/written';
import { SelectField } from '../parts/field';
import { Icon, type IconName } from '../parts/icon';
import { Panel } from '../parts/panel';
import { moveToFit, nudge, stepOf } from './plan_drag';
import { CircuitFields, SwitchFields } from './plan_circuits';
import { CornerFields, type Key, PathField, PathFields, TapedFields, WallFields } from './plan_fields';
import { addCan, k_new } from './plan_new';
import { begin, make, notice, placeForNew, work } from './plan_state';
import { isUnchecked, k_kinds, k_unchecked, type Kind, pathOf, placedThing, type Thing } from './plan_things';
import { HoleFields, TypeFields } from './plan_types';

const k_name: Key = { key: 'name', label: 'Name', form: 'text' };
const k_turn: Key = { key: 'turn', label: 'Turned', form: 'number', hint: 'degrees, counter-clockwise' };
const k_reflectance: Key = { key: 'reflectance', label: 'Light it sends back', form: 'text', hint: 'LRV 50, 50 % or 0.5' };

const lengthKey = (key: string, label: string, hint?: string): Key => ({
  key,
  label,
  form: 'length',
  ...(hint ? { hint } : {}),
});

const k_width = lengthKey('width', 'Width, west to east');
const k_depth = lengthKey('depth', 'Depth, south to north');

const k_wall_kinds = ['plain', 'door', 'window'].map((value) => ({ value, label: value }));

/** The keys of each kind besides where it is. */
const k_keys: Record<Kind, readonly Key[]> = {
  can: [lengthKey('drop', 'Hangs below the ceiling', 'a pendant; empty when flush')],
  obstruction: [k_name, k_width, k_depth, lengthKey('bottom', 'Underside above the floor'), lengthKey('top', 'Top above the floor'), k_turn, k_reflectance],
  keep_out: [k_name, k_width, k_depth, lengthKey('diameter', 'Diameter'), lengthKey('clearance', 'Clearance', 'that cans keep from its edge'), k_turn],
  fan: [k_name, lengthKey('diameter', 'Diameter of the blades'), lengthKey('drop', 'Blades below the ceiling')],
  wall_area: [
    k_name,
    { key: 'kind', label: 'Kind', form: 'text', choices: k_wall_kinds },
    lengthKey('width', 'Width along the wall'),
    lengthKey('bottom', 'Lower edge above the floor'),
    lengthKey('top', 'Upper edge above the floor'),
    k_reflectance,
  ],
  task_area: [
    k_name,
    k_width,
    k_depth,
    lengthKey('height', 'Height above the floor'),
    k_turn,
    { key: 'target', label: 'Wanted average light', form: 'text', hint: '30 fc or 300 lx' },
  ],
  seat: [k_name, lengthKey('height', 'Eyes above the floor')],
  point: [k_name, lengthKey('height', 'Height above the floor')],
  view: [k_name, lengthKey('height', 'Eye above the floor')],
  switch: [k_name, lengthKey('height', 'Height above the floor')],
};

/** Keys that another way of writing a thing makes meaningless are left out. */
function keysFor(kind: Kind, path: Path): readonly Key[] {
  const written = new Set(keysAt(path));
  const meaningless = written.has('corners')
    ? ['width', 'depth', 'turn', 'diameter', 'height']
    : written.has('diameter')
      ? ['width', 'depth', 'turn']
      : kind === 'keep_out'
        ? ['diameter']
        : [];
  return k_keys[kind].filter(({ key }) => !meaningless.includes(key));
}

async function remove(thing: Thing): Promise<void> {
  const why = await change([{ remove: pathOf(thing) }]);
  if (why) notice.value = why;
  else begin(null);
}

const k_steps: readonly { key: string; icon: IconName; way: string }[] = [
  { key: 'ArrowLeft', icon: 'left', way: 'west' },
  { key: 'ArrowRight', icon: 'right', way: 'east' },
  { key: 'ArrowUp', icon: 'up', way: 'north' },
  { key: 'ArrowDown', icon: 'down', way: 'south' },
];

/** Small steps without dragging. */
function Nudges({ thing, units }: { thing: Thing; units: Room['units'] }) {
  const step = units === 'metric' ? '1 cm' : '1/2 inch';
  return (
    <div class="nudges" role="group" aria-label={`Move by ${step}`}>
      <span class="soft">Move by {step}</span>
      {k_steps.map(({ key, icon, way }) => (
        <button
          key={key}
          type="button"
          aria-label={`${step} ${way}`}
          onClick={() => nudge(thing, stepOf(key, false) ?? [0, 0])}
        >
          <Icon name={icon} />
        </button>
      ))}
    </div>
  );
}

type Aim = 'down' | 'aimed' | 'square';

function aimWritten(path: Path): Aim {
  const aim = writtenAt([...path, 'aim']);
  return aim === undefined ? 'down' : aim === 'square' ? 'square' : 'aimed';
}

const k_aims: readonly { value: Aim; label: string }[] = [
  { value: 'down', label: 'straight down' },
  { value: 'aimed', label: 'aimed' },
  { value: 'square', label: 'square to a sloped ceiling' },
];

function aimChanges(path: Path, aim: string): readonly Change[] {
  const at = [...path, 'aim'];
  if (aim === 'aimed') return [{ set: at, value: { tilt: 30, toward: 90 } }];
  if (aim === 'square') return [{ set: at, value: 'square' }];
  return writtenAt(at) === undefined ? [] : [{ remove: at }];
}

function AimFields({ path }: { path: Path }) {
  const aim = aimWritten(path);
  const keys: readonly Key[] = [
    { key: 'tilt', label: 'Tilt', form: 'number', hint: 'degrees from straight down' },
    { key: 'toward', label: 'Toward', form: 'number', hint: 'degrees: 0 east, 90 north, 180 west, 270 south' },
  ];
  return (
    <>
      <SelectField label="Aim" value={aim} choices={k_aims} onCommit={(chosen) => change(aimChanges(path, chosen))} />
      {aim === 'aimed' && <PathFields path={[...path, 'aim']} keys={keys} />}
    </>
  );
}

function CanFields({ room, can }: { room: Room; can: Can }) {
  const path = pathOf({ kind: 'can', number: can.number });
  return (
    <>
      {can.fits === false && (
        <>
          <p class="wrong">Does not fit: {can.hits.join(', ')}.</p>
          <button type="button" onClick={() => void moveToFit(can)}>
            Move to the nearest place that fits
          </button>
        </>
      )}
      {isUnchecked(room, can) && <p class="wrong">This can is {k_unchecked}. Type it below.</p>}
      {can.fits === true && room.is_ceiling_known && <p class="good fits">Fits between the framing.</p>}
      {can.fits === true && !room.is_ceiling_known && (
        <p class="soft fits">Not checked against joists and vents: the job has none. Enter them by “Add …”.</p>
      )}
      <TypeFields room={room} can={can} />
      <HoleFields room={room} can={can} />
      <PathField path={[...path, 'level']} label="Level" form="text" hint="of full light: 80 %; empty is full" />
      <AimFields path={path} />
      <CircuitFields room={room} can={can} />
    </>
  );
}

function ThingPanel({ room, thing }: { room: Room; thing: Thing }) {
  const placed = placedThing(room, thing);
  if (!placed) return null;
  const path = pathOf(thing);
  const can = thing.kind === 'can' ? room.cans[thing.number - 1] : undefined;
  const title = can ? placed.name : `${k_kinds[thing.kind].title}: ${placed.name}`;
  return (
    <Panel title={title} onClose={() => begin(null)}>
      <TapedFields path={path} />
      {keysAt(path).includes('corners') && <CornerFields path={[...path, 'corners']} />}
      <Nudges thing={thing} units={room.units} />
      {can && <CanFields room={room} can={can} />}
      <PathFields path={path} keys={keysFor(thing.kind, path)} />
      {thing.kind === 'switch' && <SwitchFields room={room} thing={thing} />}
      <div class="actions">
        {can && (
          <button type="button" onClick={(event) => void addCan(placeForNew(), can.number, event)}>
            <Icon name="copy" /> Another one like it
          </button>
        )}
        {can && room.cans.length === 1 ? (
          <p class="soft">The last can stays: a job has at least one. Move it, or give it another type.</p>
        ) : (
          <button type="button" onClick={() => void remove(thing)}>
            <Icon name="remove" /> Remove
          </button>
        )}
      </div>
    </Panel>
  );
}

/** Rectangle, four walls as taped, or corners: as the job has it. */
function RoomShape({ room }: { room: Room }) {
  const path = ['room'];
  const keys = keysAt(path);
  const ceiling = lengthKey('ceiling', 'Ceiling above the floor');
  if (keys.includes('corners')) {
    return (
      <>
        <PathFields path={path} keys={[ceiling]} />
        <WallFields room={room} />
        <CornerFields path={['room', 'corners']} />
      </>
    );
  }
  if (keys.includes('sides')) {
    const sides = keysAt(['room', 'sides']).map((wall) => lengthKey(wall, `Length of the ${wall} wall`));
    return (
      <>
        <PathFields path={path} keys={[ceiling]} />
        <PathFields path={['room', 'sides']} keys={sides} />
        <PathFields path={['room', 'diagonal']} keys={[lengthKey('length', `Diagonal from ${wordAt(['room', 'diagonal', 'from'])}`)]} />
      </>
    );
  }
  return <PathFields path={path} keys={[k_width, k_depth, ceiling]} />;
}

const k_finishes: ReadonlySet<string> = new Set(['floor', 'ceiling', 'walls']);

function Finish({ name, text }: Room['finishes'][number]) {
  const isWhole = k_finishes.has(name);
  const path = isWhole ? ['finishes', name] : ['finishes', 'wall', name];
  const understood = text === wordAt(path) ? {} : { hint: text };
  return <PathField path={path} label={isWhole ? name : `${name} wall`} form="text" {...understood} />;
}

function Finishes({ room }: { room: Room }) {
  return (
    <fieldset>
      <legend>Finishes: the part of the light that is sent back, LRV on a paint card</legend>
      <div class="fields">
        {room.finishes.map((finish) => (
          <Finish key={finish.name} {...finish} />
        ))}
      </div>
    </fieldset>
  );
}

/** One series of joists, or each of several. */
function Joists({ room }: { room: Room }) {
  const series: readonly Path[] = isListAt(['joists'])
    ? keysAt(['joists']).map((i) => ['joists', Number(i)])
    : writtenAt(['joists']) === undefined
      ? []
      : [['joists']];
  const walls = room.room.corners.map(({ wall_from_here: wall }) => ({ value: wall, label: wall }));
  const keys: readonly Key[] = [
    { key: 'parallel_to', label: 'Parallel to the wall', form: 'text', choices: walls },
    lengthKey('first', 'First joist', 'its centre from that wall'),
    lengthKey('spacing', 'Spacing', 'from centre to centre'),
    lengthKey('thickness', 'Thickness'),
  ];
  return (
    <>
      {series.map((path) => (
        <fieldset key={path.join(' ')}>
          <legend>Joists</legend>
          <PathFields path={path} keys={keys} />
          <button type="button" onClick={() => void make([{ remove: path }])}>
            <Icon name="remove" /> Remove these joists
          </button>
        </fieldset>
      ))}
    </>
  );
}

function RoomPanel({ room }: { room: Room }) {
  return (
    <Panel title="Room" onClose={() => begin(null)}>
      <PathFields path={['room']} keys={[k_name]} />
      <RoomShape room={room} />
      <div class="fields">
        <PathField path={['target']} label="Wanted average light" form="text" hint="30 fc or 300 lx" />
        <PathField
          path={['work_plane', 'height']}
          label="Work plane above the floor"
          form="length"
          hint="where the light is counted"
        />
      </div>
      <Finishes room={room} />
      <Joists room={room} />
    </Panel>
  );
}

function JoistsPanel({ room }: { room: Room }) {
  return (
    <Panel title="Joists" onClose={() => begin(null)}>
      <Joists room={room} />
    </Panel>
  );
}

function AddPanel({ room }: { room: Room }) {
  return (
    <Panel title="Add" onClose={() => begin(null)}>
      <p class="soft">It goes to where you last tapped the floor, or else to the middle.</p>
      <div class="choices">
        {k_new.map(({ label, add }) => (
          <button key={label} type="button" onClick={() => void add(room)}>
            {label}
          </button>
        ))}
      </div>
    </Panel>
  );
}

/** The panel of what is worked on, if anything. */
export function WorkPanel() {
  const room = knownRoom.value;
  const now = work.value;
  if (!room || now === null) return null;
  if (now === 'room') return <RoomPanel room={room} />;
  if (now === 'joists') return <JoistsPanel room={room} />;
  if (now === 'add') return <AddPanel room={room} />;
  return (
    <Fragment key={`${now.kind} ${now.number}`}>
      <ThingPanel room={room} thing={now} />
    </Fragment>
  );
}
