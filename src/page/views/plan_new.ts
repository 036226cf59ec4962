// What can be added to a plan, as it is written at first.

import { type Change, changedText, placed, Refused } from '../engine/commands';
import type { Point, Room } from '../engine/results';
import { change, engine, jobNow, room } from '../job/job_desk';
import { writtenAt } from '../job/written';
import { distance_m } from '../parts/line';
import { begin, notice, placeForNew } from './plan_state';
import { allOf, k_kinds, type Kind, pathOf, type Thing } from './plan_things';
import { circuitsForSwitch } from './plan_wiring';

type Written = Readonly<Record<string, unknown>>;

type Usual = 'furniture' | 'vent' | 'alarm' | 'door' | 'window' | 'switch' | 'desk' | 'joists';

/** Usual sizes to begin with; common practice, no source. */
const k_usual: Record<Room['units'], Record<Usual, Written>> = {
  imperial: {
    furniture: { width: '6 ft', depth: '3 ft', top: '30 in' },
    vent: { width: '12 in', depth: '6 in', clearance: '1 in' },
    alarm: { diameter: '6 in', clearance: '3 in' },
    door: { width: '32 in', top: '80 in', reflectance: 'LRV 75', kind: 'door' },
    window: { width: '4 ft', bottom: '30 in', top: '80 in', reflectance: 'LRV 10', kind: 'window' },
    switch: { height: '48 in' },
    desk: { width: '4 ft', depth: '2 ft', height: '30 in' },
    joists: { first: '8 in', spacing: '16 in' },
  },
  metric: {
    furniture: { width: '180 cm', depth: '90 cm', top: '75 cm' },
    vent: { width: '30 cm', depth: '15 cm', clearance: '2 cm' },
    alarm: { diameter: '15 cm', clearance: '8 cm' },
    door: { width: '80 cm', top: '2 m', reflectance: 'LRV 75', kind: 'door' },
    window: { width: '120 cm', bottom: '80 cm', top: '2 m', reflectance: 'LRV 10', kind: 'window' },
    switch: { height: '120 cm' },
    desk: { width: '120 cm', depth: '60 cm', height: '75 cm' },
    joists: { first: '20 cm', spacing: '40 cm' },
  },
};

/** Until `move` tells how far. */
const k_somewhere: Record<Room['units'], string> = { imperial: '1 ft', metric: '30 cm' };

/** A name that no other of its kind has. */
function freeName(room: Room, kind: Kind, name: string): string {
  const taken = new Set(allOf(room, kind).map((each) => each.name));
  if (!taken.has(name)) return name;
  for (let i = 2; ; ++i) if (!taken.has(`${name} ${i}`)) return `${name} ${i}`;
}

/** From two neighbouring walls. */
function taped(room: Room): Written {
  const [first, second] = room.room.corners;
  const somewhere = k_somewhere[room.units];
  return { [first?.wall_from_here ?? '']: somewhere, [second?.wall_from_here ?? '']: somewhere };
}

/** The wall that is nearest to a place, and the neighbour that it is taped from. */
function wallNear(room: Room, place: Point): { wall: string; neighbour: string } {
  const { corners } = room.room;
  const distance = (i: number): number => {
    const [a, b] = [corners[i], corners[(i + 1) % corners.length]];
    if (!a || !b) return Infinity;
    return distance_m(place, [
      [a.x_m, a.y_m],
      [b.x_m, b.y_m],
    ]);
  };
  const nearest = corners.map((_, i) => i).reduce((best, i) => (distance(i) < distance(best) ? i : best), 0);
  const name = (i: number): string => corners[(i + corners.length) % corners.length]?.wall_from_here ?? '';
  return { wall: name(nearest), neighbour: name(nearest - 1) };
}

/** @param before changes that the new thing needs */
async function addThing(kind: Kind, written: Written, before: readonly Change[] = []): Promise<void> {
  if (!room.value) return;
  const thing: Thing = { kind, number: allOf(room.value, kind).length + 1 };
  const to_m = placeForNew();
  const why = await change([...before, { add: [...k_kinds[kind].list], value: written }, { move: pathOf(thing), to_m }]);
  if (why) notice.value = why;
  else begin(thing);
}

let isAdding = false;

/**
 * A can like the last, or another one, where it fits nearest to `wished`: one at a time.
 *
 * @param click that asks for it; the second of a double click asks for nothing
 */
export async function addCan(wished: Point, like: number, click?: MouseEvent): Promise<void> {
  if (isAdding || (click && click.detail > 1)) return;
  isAdding = true;
  try {
    await addOneCan(wished, like);
  } finally {
    isAdding = false;
  }
}

async function addOneCan(wished: Point, like: number): Promise<void> {
  const known = room.value;
  const model = writtenAt(['cans', like - 1]);
  if (!known || typeof model !== 'object' || model === null) return;
  const thing: Thing = { kind: 'can', number: known.cans.length + 1 };
  const add = { add: ['cans'], value: { ...model } };
  try {
    const text = await changedText(engine, jobNow(), [add]);
    const { place, text: why } = await placed(engine, { ...jobNow(), text }, thing.number, ...wished);
    if (!place) {
      notice.value = why;
      return;
    }
    notice.value = await change([add, { move: pathOf(thing), to_m: [place.x_m, place.y_m] }]);
    if (!notice.value) begin(thing);
  } catch (why) {
    if (!(why instanceof Refused)) throw why;
    notice.value = why.message;
  }
}

export interface New {
  readonly label: string;
  readonly add: (room: Room) => Promise<void>;
}

const boxed = (label: string, kind: Kind, name: string, usual: Usual): New => ({
  label,
  add: (room) =>
    addThing(kind, { name: freeName(room, kind, name), from: taped(room), ...k_usual[room.units][usual] }),
});

const onWall = (label: string, usual: 'door' | 'window'): New => ({
  label,
  add: (room) => {
    const { wall, neighbour } = wallNear(room, placeForNew());
    const from = { [neighbour]: k_somewhere[room.units] };
    const name = freeName(room, 'wall_area', usual);
    return addThing('wall_area', { name, wall, from, ...k_usual[room.units][usual] });
  },
});

/** A switch in the nearest wall, for the circuits that have none. */
export async function addSwitch(room: Room): Promise<void> {
  const { names, changes } = circuitsForSwitch(room);
  if (names.length === 0) {
    notice.value = 'Every circuit has its switch. For another switch, first choose a new circuit in the panel of a can.';
    return;
  }
  const { wall, neighbour } = wallNear(room, placeForNew());
  const from = { [neighbour]: k_somewhere[room.units] };
  const name = freeName(room, 'switch', 'switch');
  await addThing('switch', { name, wall, from, ...k_usual[room.units].switch, circuits: names }, changes);
}

const joists: New = {
  label: 'Joists',
  add: async (room) => {
    begin('joists');
    if (writtenAt(['joists']) !== undefined) return; // the panel shows them
    const value = { parallel_to: room.room.corners.at(-1)?.wall_from_here, ...k_usual[room.units].joists };
    notice.value = await change([{ set: ['joists'], value }]);
  },
};

export const k_new: readonly New[] = [
  { label: 'Can', add: (room) => addCan(placeForNew(), room.cans.length) },
  boxed('Furniture', 'obstruction', 'furniture', 'furniture'),
  boxed('Keep-out: vent', 'keep_out', 'vent', 'vent'),
  boxed('Keep-out: smoke alarm', 'keep_out', 'smoke alarm', 'alarm'),
  onWall('Door', 'door'),
  onWall('Window', 'window'),
  { label: 'Switch', add: addSwitch },
  boxed('Task area', 'task_area', 'task area', 'desk'),
  joists,
];
